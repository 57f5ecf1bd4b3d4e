import type { FunctionComponent } from 'preact'
import type { Option } from '../../plan/options.ts'
import type { Path } from '../plan-text.ts'

/** What the field for a key of the plan file is given. */
export interface OptionProps {
  /** Where the plan says it. */
  readonly path: Path
  readonly option: Option
  /** Instead of what the format calls it. */
  readonly label?: string | undefined
  readonly isLabelHidden?: boolean
  /** The field for the parts of a key that has parts. */
  readonly Part: FunctionComponent<PartProps>
}

export type PartProps = Omit<OptionProps, 'Part'>
