import { isOpen } from './choose/choose-plan.ts'
import { allOverWorkOf, layOutPlan, reachOf } from './engine-input.ts'
import { type PlannedLines, planThreads } from './pieces/plan-threads.ts'
import {
  drawQuilt,
  type FilledQuilt,
  fillQuilt,
  fitFillers,
  lineTaskOf,
  type ThreadedQuilt,
} from './pipeline.ts'
import type { Catalog } from './plan/catalog.ts'
import type { Plan } from './plan/plan.ts'

/** Plans one quilt after another: what a change does not touch is taken from the plan before. */
export interface Replanner {
  fill(plan: Plan): FilledQuilt
  thread(filled: FilledQuilt): ThreadedQuilt
}

/**
 * A planner for plans that follow one another by small changes. Each plan comes out as if it were planned alone: pieces
 * and line are kept only while everything that they depend on stays the same. Choices that a plan leaves open depend on
 * nearly all of it and are made anew.
 */
export function replannerOf(catalog: Catalog): Replanner {
  const fitted = keptByKey<ReturnType<typeof fitFillers>>()
  const line = keptByKey<PlannedLines>()
  return {
    fill: (plan) => {
      if (isOpen(plan)) return fillQuilt(plan, catalog)
      const laid = layOutPlan(plan)
      return { plan, ...laid, ...fitted(shapesOf(plan), () => fitFillers(plan, laid.quilt, catalog)) }
    },
    thread: (filled) =>
      drawQuilt(
        filled,
        line(wayOf(filled.plan), () => planThreads(lineTaskOf(filled))),
        catalog,
      ),
  }
}

/** Keeps the last thing that was made, and makes another only for another key. */
function keptByKey<T>(): (key: string, make: () => T) => T {
  let kept: { readonly key: string; readonly value: T } | undefined
  return (key, make) => {
    if (kept?.key !== key) kept = { key, value: make() }
    return kept.value
  }
}

/** All of a plan but what fillers and pieces do not depend on: words, colours of cloth, stitches, the way of the line. */
function shapesOf(plan: Plan): string {
  const { title, units, bindingFabric, thread, stitch, route, machine, centre, bands, ...others } = plan
  const { fabric, ...area } = centre
  return JSON.stringify({
    ...others,
    reach: reachOf(plan),
    allOverWork: plan.allOver && allOverWorkOf(plan),
    area,
    bands: bands.map(({ fabric: cloth, pieced, ...band }) => ({
      ...band,
      pieced: pieced && { ...pieced, fabrics: Object.keys(pieced.fabrics) },
    })),
  })
}

/** All of a plan but what its line does not depend on. */
const wayOf = (plan: Plan): string =>
  JSON.stringify([
    shapesOf(plan),
    plan.route,
    plan.thread.colour,
    plan.machine.reach,
    plan.machine.throat,
    plan.machine.overlap,
  ])
