/** What is wrong with a drawing. */
export interface DrawingFault {
  /** `drawing/...` */
  readonly code: string
  readonly message: string
  readonly hint?: string
  /** Where in the text, in characters from its start; left out for the whole. */
  readonly offset?: number
}

/** Ends the reading of a drawing. Whoever asked for it makes a PlanError of it, with the place it knows. */
export class DrawingRefusal extends Error {
  readonly fault: DrawingFault

  constructor(fault: DrawingFault) {
    super(fault.message)
    this.name = 'DrawingRefusal'
    this.fault = fault
  }
}

/** Refuses a drawing. @throws DrawingRefusal always */
export function refuseDrawing(
  code: string,
  message: string,
  more: { hint?: string; offset?: number } = {},
): never {
  throw new DrawingRefusal({ code: `drawing/${code}`, message, ...more })
}
