import { cross, subtract, unit } from '../geometry/point.ts'
import type { Side } from './quilt.ts'

/** How far an outer corner lies above the line of the inner seam, mm. */
export function heightAt(side: Side, corner: 'outerA' | 'outerB'): number {
  return -cross(unit(subtract(side.innerB, side.innerA)), subtract(side[corner], side.innerA))
}
