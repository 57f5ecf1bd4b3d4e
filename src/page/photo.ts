import { signal } from '@preact/signals'

/** A place on the photo, in shares of its width and height. */
export type PhotoPlace = readonly [x: number, y: number]

/** A photo of the real top, and where the quilt's corners are on it, clockwise from the top left. */
export interface Photo {
  readonly url: string
  readonly corners: readonly [PhotoPlace, PhotoPlace, PhotoPlace, PhotoPlace] | undefined
}

/** Stays in the page: it is neither kept nor sent. */
export const photo = signal<Photo | undefined>(undefined)
