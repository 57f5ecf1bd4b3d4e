import { parentPort } from 'node:worker_threads'
import { findGaps, type GapTask } from '../report/find-gaps.ts'

parentPort?.once('message', (task: GapTask) => parentPort?.postMessage(findGaps(task)))
