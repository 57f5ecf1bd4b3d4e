import type { ComponentChildren } from 'preact'

interface ThingProps {
  readonly name: string
  readonly onTakeAway?: () => void
  readonly children: ComponentChildren
}

/** One of several things of a kind: its fields under its name, and a button that takes it away. */
export function Thing({ name, onTakeAway, children }: ThingProps) {
  return (
    <fieldset class="thing is-wide">
      <legend>{name}</legend>
      <div class="fields">{children}</div>
      {onTakeAway && (
        <button type="button" class="plain" aria-label={`Take ${name} away`} onClick={onTakeAway}>
          take away
        </button>
      )}
    </fieldset>
  )
}

interface ProblemProps {
  readonly id?: string
  readonly problem: string | undefined
}

/** What is wrong with a thing that is no single field. */
export const Problem = ({ id, problem }: ProblemProps) =>
  problem ? (
    <p class="say" id={id} role="alert">
      {problem}
    </p>
  ) : null
