import type { Point } from '../geometry/point.ts'
import type { Stroke } from '../geometry/stroke.ts'
import type { Patch } from '../quilt/patch.ts'
import type { PatchFillers } from './band-filler.ts'
import { fillPatch, type PatchFill } from './patch-fillers/contract.ts'

/** The strokes that fill one patch. Patches of every other unit begin at another corner, so that neighbours join. */
export function patchStrokes({ outline, turn }: Patch, fill: PatchFill): readonly Stroke[] {
  const corners = turn === 0 ? outline : rotated(outline)
  return fillPatch(fill, corners)
}

const rotated = (outline: readonly Point[]): Point[] => [outline.at(-1)!, ...outline.slice(0, -1)]

/** The fill of a patch, if it has one. */
export const fillOf = (patch: Patch, { patches }: PatchFillers): PatchFill | undefined => patches[patch.name]
