import { useEffect, useState } from 'preact/hooks'

/** What is being typed into a field, until the value behind it changes. */
export function useTyped(value: unknown): [string | undefined, (typed: string | undefined) => void] {
  const [typed, setTyped] = useState<string | undefined>(undefined)
  useEffect(() => setTyped(undefined), [value])
  return [typed, setTyped]
}

/** Enter takes what was typed, Escape forgets it. */
export const onFieldKey =
  (commit: () => void, forget: () => void) =>
  ({ key }: KeyboardEvent): void => {
    if (key === 'Enter') commit()
    if (key === 'Escape') forget()
  }
