import type { Region } from '../check/region.ts'
import type { Box, Stroke } from '../geometry/stroke.ts'
import { reverseStroke } from '../geometry/stroke.ts'
import type { Filler } from '../motif/draw-stretch.ts'
import { cutPieces, type Pieces, type Stretch } from '../pieces/pieces.ts'
import { layOutQuilt } from '../quilt/layout.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { Figure } from './figure.ts'
import { measureFiller } from './measure.ts'
import { sizeText } from './size-text.ts'

/** Half the length of the inner seam, in widths: long enough for the slowest motif to find its rhythm. */
const HALF = 5.2
/** What is shown, in widths: left of the side's middle, and down the side beyond the corner. */
const SHOWN = { before: 0.9, down: 3.15, margin: 0.06 }
/** The whole side is one area. */
const REACH = [1e6, 1e6] as const

/** A motif in a mitred band: the middle of one side, the corner, and down the next side; measured on the whole band. */
export function bandFigure(filler: Filler, width: number): Figure {
  const quilt = bandAlone(width)
  const pieces = cutPieces(quilt, [filler], { reach: REACH, seed: 1 })
  const strokes = roundTheBand(pieces)
  return {
    label: sizeText(width),
    view: cornerView(width),
    strokes,
    seams: [...quilt.rings, mitreOf(quilt)],
    measures: measureFiller(strokes, regionOfBand(quilt)),
  }
}

function bandAlone(width: number): Quilt {
  const side = 2 * HALF * width
  return layOutQuilt({
    centre: { width: side, height: side, fabric: '' },
    bands: [
      {
        name: 'band',
        width: { top: width, right: width, bottom: width, left: width },
        fabric: '',
        corners: 'mitred',
      },
    ],
    binding: 0,
  })
}

const regionOfBand = ({ rings }: Quilt): Region => ({ rings: [rings[1]!, rings[0]!] })

const mitreOf = ({ rings }: Quilt) => [rings[0]![1]!, rings[1]![1]!]

function cornerView(width: number): Box {
  const margin = SHOWN.margin * width
  return {
    minX: (1 + HALF - SHOWN.before) * width,
    minY: -margin,
    maxX: (2 + 2 * HALF) * width + margin,
    maxY: SHOWN.down * width,
  }
}

/** The pieces in order clockwise round the band. */
function roundTheBand(pieces: Pieces): Stroke[] {
  const order = (stretch: Stretch) => (stretch.half === 'left' ? stretch.station : -stretch.station)
  return [0, 1, 2, 3].flatMap((side) =>
    (['left', 'right'] as const).flatMap((half) =>
      pieces.stretches
        .filter((stretch) => stretch.side === side && stretch.half === half)
        .sort((a, b) => order(a) - order(b))
        .flatMap(({ pieces: [first, end] }) => {
          const strokes = pieces.pieces.slice(first, end).map(({ stroke }) => stroke)
          return half === 'right' ? strokes : strokes.map(reverseStroke).reverse()
        }),
    ),
  )
}
