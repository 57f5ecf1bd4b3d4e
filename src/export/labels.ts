import { type LengthUnit, MM_PER } from '../units.ts'
import { numberText } from './number-text.ts'

export { lengthText } from '../length-text.ts'

/** Every text that an output says. A length is written in the plan's own unit. */

/** A long length: yards, or metres. */
export const longLengthText = (mm: number, units: LengthUnit): string =>
  units === 'in' ? `${numberText(mm / MM_PER.yd, 1)} yd` : `${numberText(mm / MM_PER.m, 1)} m`

/** A count with a comma between the thousands: a locale's own rules take long to load. */
export const countText = (count: number): string => String(count).replaceAll(/\B(?=(\d{3})+$)/g, ',')

/** Said in every file for a machine that moves by itself. */
export const FRAME_CAUTIONS: readonly string[] = [
  'CAUTION: the machine moves by itself.',
  'Check the travel limits of your frame against the size of this path.',
  'Run the outline with the needle up first.',
  'Keep hands and hair clear, and stay at the stop switch.',
  "Follow the machine maker's instructions.",
]

const UNIT_NAMES: Readonly<Record<LengthUnit, string>> = {
  in: 'inches',
  cm: 'centimetres',
  mm: 'millimetres',
}

export const LABELS = {
  names: {
    seam: 'seam',
    centre: 'centre',
    allOver: 'all over',
    band: (number: number): string => `band ${number}`,
    pass: (title: string, number: number, of: number): string => `${title}, pass ${number} of ${of}`,
  },
  layers: {
    stitch: 'Stitch line',
    order: 'Direction and order',
    seams: 'Seams',
    register: 'Register marks',
    words: 'Labels',
  },
  path: {
    made: 'Machine path by Ditchline',
    bounds: 'Outline only: run it with the needle up',
    quilt: (title: string): string => `Quilt: ${title}`,
    frame: (units: LengthUnit, yAxis: 'up' | 'down', origin: string): string =>
      `Coordinates in ${UNIT_NAMES[units]}, x to the right, y ${yAxis}, origin: ${origin}`,
    origin: (corner: string, box: 'quilt' | 'line'): string => `${corner.replace('-', ' ')} of the ${box}`,
    size: (width: string, height: string): string => `Size of the path: ${width} x ${height}`,
    speed: (spm: number, feed: string): string => `${spm} stitches a minute: feed ${feed} a minute`,
    start: (number: number, of: number): string => `Thread start ${number} of ${of}`,
    threadOf: (number: number, of: number, thread: string): string =>
      `Thread start ${number} of ${of}: thread ${thread}`,
    change: (thread: string): string => `Stop: put in thread ${thread} and its bobbin, then go on`,
  },
  sheets: {
    heading: 'Tracing sheets, full size',
    stripsHeading: 'Tracing strips, full size',
    mirrored: '(mirrored: trace on the back)',
    start: 'START',
    end: 'END',
    startAndEnd: 'START and END',
    count: (number: number, of: number): string => `sheet ${number} of ${of}`,
    fullSize: 'Print at 100 percent. Check the test squares on the first page.',
    testHeading: 'Print at 100 percent, then measure',
    testText:
      'Choose "actual size" in the print window, never "fit to page". If a square is off, so is the whole quilt.',
    oneInch: '1 in',
    fiveCm: '5 cm',
    mapHeading: 'How the sheets lie',
    facts: (size: string, line: string, sheets: string): string => `Quilt ${size}. Line ${line}. ${sheets}.`,
    size: (width: string, height: string): string => `${width} x ${height}`,
    sheetCount: (count: number): string => (count === 1 ? '1 sheet' : `${count} sheets`),
    leftOut: (count: number): string =>
      count === 1
        ? 'The sheet without a name has nothing to trace and is left out.'
        : `The ${count} sheets without a name have nothing to trace and are left out.`,
    steps: [
      'Print this page first and measure both squares.',
      'Lay the sheets out as the map shows: letters are rows, numbers are columns. The edges say which sheet is next.',
      'Lay each sheet on its neighbour so that the ringed crosses meet, then tape. Or cut along the dashed lines and butt the edges.',
      'Follow the arrows from START. The numbers are the areas in the order of work; grey lines are seams.',
    ],
    stripSteps: [
      'Print this page first and measure both squares.',
      'Trace each piece as often as it says, from the middle of each side to its corners; ticks show the way to the middle. Turned over: with the other side of the paper up.',
      'A piece longer than a sheet goes on on the next one: lay them so that the ringed crosses meet.',
      'Follow the arrows. Grey lines are seams; at a slanted end the next piece goes on.',
    ],
    piece: (band: string, piece: 'run' | 'corner', where: PieceWhere = {}): string => {
      const number = where.fromMiddle === undefined ? '' : ` ${where.fromMiddle} from the middle`
      const sides = where.sides ? ` (${where.sides.join(', ')})` : ''
      return `${band} band: ${piece === 'run' ? 'straight run' : 'corner'}${number}${sides}`
    },
    times: (count: number, turned = 0): string => {
      if (count === 0) return `trace ${timesText(turned)}, turned over`
      return `trace ${timesText(count)}${turned === 0 ? '' : `, and ${timesText(turned)} turned over`}`
    },
    middle: 'middle of the side',
    toMiddle: 'to the middle',
  },
  order: {
    heading: 'In what order to stitch',
    legend:
      'Black: to be stitched now, in the order of the numbers. Grey: done. Dashed: in the ditch. Ring: where it ends.',
    area: (number: number, of: number): string => (of > 1 ? `Area ${number} of ${of}` : 'The whole line'),
    areaPart: (number: number, of: number, part: number, parts: number): string =>
      `Area ${number} of ${of}, part ${part} of ${parts}`,
    summary: (length: string): string => `${length} of line`,
    begin: (thread: number, of: number): string =>
      of > 1 ? `Start thread ${thread} of ${of}: tie off.` : 'Start here: tie off.',
    beginWith: (thread: number, of: number, colour: string, isChange: boolean): string =>
      `${isChange ? `Change the thread: put in ${colour} and its bobbin.` : `Put in thread ${colour}.`} Start thread ${thread} of ${of}: tie off.`,
    finish: 'Tie off and end the thread.',
    run: (what: string, from: string, way: string, to: string): string =>
      `${what}: from ${from} ${way}, ending on ${to}.`,
    bandRun: (band: string, filler: string | undefined): string =>
      filler ? `${capital(band)} band, ${filler}` : `${capital(band)} band`,
    allOverRun: (filler: string): string => `All over, ${filler}`,
    centreRun: (filler: string | undefined): string => (filler ? `Centre, ${filler}` : 'Centre'),
    seam: {
      inner: 'the inner seam',
      outer: 'the outer seam',
      edge: 'the outer edge',
      inside: 'the middle of the band',
    },
    same: {
      inner: 'the inner seam again',
      outer: 'the outer seam again',
      edge: 'the outer edge again',
      inside: 'the middle of the band',
    },
    page: (number: number, of: number): string => `page ${number} of ${of}`,
    back: (way: string): string => `back ${way}`,
    round: (corner: string): string => `round the ${corner} corner`,
    roundTo: (side: string): string => `round the corner to the ${side} side`,
    lap: { clockwise: 'clockwise all the way round', anticlockwise: 'anticlockwise all the way round' },
    ways: {
      right: 'to the right',
      left: 'to the left',
      up: 'upward',
      down: 'downward',
      upRight: 'up to the right',
      downRight: 'down to the right',
      downLeft: 'down to the left',
      upLeft: 'up to the left',
      here: 'on the spot',
    },
    corners: {
      'top right': 'top right',
      'bottom right': 'bottom right',
      'bottom left': 'bottom left',
      'top left': 'top left',
    },
    edgeOf: (region: string): string => `the edge of ${region}`,
    edge: (region: string, length: string, isAgain: boolean): string =>
      isAgain
        ? `Go round ${region} along its edge, ${length}.`
        : `Stitch along the edge of ${region}, ${length}.`,
    travel: (way: string, length: string): string => `Travel in the ditch ${way}, ${length}.`,
    travelFor: (way: string, length: string, reason: string): string =>
      `Travel in the ditch ${way}, ${length}: ${reason}.`,
    ditch: (way: string, length: string): string => `Stitch in the ditch ${way}, ${length}.`,
  },
  picture: {
    bobbin: (number: number): string => `bobbin change ${number}`,
    gap: (shape: 'circle' | 'square', band: string | undefined, size: string): string =>
      `largest ${shape} without stitching${band === undefined ? '' : ` in ${band}`}: ${size}`,
    swatches: (times: number): string => `The thread on each band's fabric, ${times} times as thick as life`,
  },
  html: {
    figures: 'Figures',
    warnings: 'Warnings',
    noWarnings: 'No warnings.',
    cautions: 'Cautions',
    picture: (title: string): string => `The quilt "${title}" with its line`,
    at: (place: string): string => `at ${place}`,
  },
} as const

/** Where a tracing strip belongs. */
interface PieceWhere {
  readonly fromMiddle?: number | undefined
  readonly sides?: readonly string[] | undefined
}

const timesText = (count: number): string => (count === 1 ? 'once' : `${count} times`)

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
