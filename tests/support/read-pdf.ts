import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'

/** A path of a page in mm from the page's top left corner, y down, with the layers and pen it is drawn in. */
export interface PdfPath {
  readonly polylines: readonly (readonly (readonly [number, number])[])[]
  readonly layer: string
  readonly penWidth: number
  readonly paint: 'stroke' | 'fill' | 'both'
}

export interface PdfText {
  readonly text: string
  readonly at: readonly [number, number]
}

export interface PdfPage {
  readonly widthPt: number
  readonly heightPt: number
  readonly paths: readonly PdfPath[]
  readonly texts: readonly PdfText[]
}

/** A file: what it says of itself, and its pages. */
export interface PdfFile {
  readonly title: string
  readonly layers: readonly string[]
  readonly printScaling: string | undefined
  readonly pages: readonly PdfPage[]
}

type Matrix = readonly [number, number, number, number, number, number]
const MM = 25.4 / 72

/** All pages of a file as pdf.js understands them. Curves are given by their end points. */
export async function readPdf(bytes: Uint8Array): Promise<PdfFile> {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0 })
  const doc = await task.promise
  const { info } = await doc.getMetadata()
  const config = await doc.getOptionalContentConfig()
  const groups = new Map([...config].map(([id, group]) => [id as string, group.name as string]))
  const pages: PdfPage[] = []
  for (let i = 1; i <= doc.numPages; i++) {
    const page = await doc.getPage(i)
    const [x0, y0, x1, y1] = page.view as [number, number, number, number]
    const operators = await page.getOperatorList()
    const height = y1 - y0
    const content = await page.getTextContent()
    const texts = content.items.flatMap((item) =>
      'str' in item && item.str
        ? [{ text: item.str, at: [item.transform[4] * MM, (height - item.transform[5]) * MM] as const }]
        : [],
    )
    pages.push({ widthPt: x1 - x0, heightPt: height, paths: pathsOf(operators, height, groups), texts })
  }
  const preferences = (await doc.getViewerPreferences()) as { PrintScaling?: string } | null
  await task.destroy()
  return {
    title: String((info as { Title?: string }).Title),
    layers: [...groups.values()],
    printScaling: preferences?.PrintScaling,
    pages,
  }
}

interface Operators {
  readonly fnArray: readonly number[]
  // biome-ignore lint/suspicious/noExplicitAny: pdf.js gives its operators' arguments untyped
  readonly argsArray: readonly any[]
}

function pathsOf(
  { fnArray, argsArray }: Operators,
  height: number,
  groups: ReadonlyMap<string, string>,
): PdfPath[] {
  const paths: PdfPath[] = []
  let matrix: Matrix = [1, 0, 0, 1, 0, 0]
  let penWidth = 1
  const saved: [Matrix, number][] = []
  const layers: string[] = []
  fnArray.forEach((fn, i) => {
    const args = argsArray[i]
    if (fn === OPS.save) saved.push([matrix, penWidth])
    else if (fn === OPS.restore) [matrix, penWidth] = saved.pop()!
    else if (fn === OPS.transform) matrix = multiply(matrix, args as Matrix)
    else if (fn === OPS.setLineWidth) penWidth = args[0] as number
    else if (fn === OPS.beginMarkedContentProps) layers.push(groups.get(args[1]?.id) ?? '')
    else if (fn === OPS.beginMarkedContent) layers.push('')
    else if (fn === OPS.endMarkedContent) layers.pop()
    else if (fn === OPS.constructPath) {
      const paint = PAINTS.get(args[0] as number)
      if (!paint) return
      const polylines = polylinesOf(args[1][0] as ArrayLike<number>, matrix, height)
      paths.push({
        polylines,
        layer: layers.at(-1) ?? '',
        penWidth: penWidth * Math.abs(matrix[0]) * MM,
        paint,
      })
    }
  })
  return paths
}

const PAINTS = new Map<number, PdfPath['paint']>([
  [OPS.stroke, 'stroke'],
  [OPS.closeStroke, 'stroke'],
  [OPS.fill, 'fill'],
  [OPS.eoFill, 'fill'],
  [OPS.fillStroke, 'both'],
  [OPS.closeFillStroke, 'both'],
])

const multiply = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1],
  m[1] * n[0] + m[3] * n[1],
  m[0] * n[2] + m[2] * n[3],
  m[1] * n[2] + m[3] * n[3],
  m[0] * n[4] + m[2] * n[5] + m[4],
  m[1] * n[4] + m[3] * n[5] + m[5],
]

/** Coordinates per drawing operator of pdf.js: move, line, cubic, quadratic, close. */
const ARITY = [2, 2, 6, 4, 0]

function polylinesOf(data: ArrayLike<number>, m: Matrix, height: number): [number, number][][] {
  const polylines: [number, number][][] = []
  for (let i = 0; i < data.length; ) {
    const operator = data[i]!
    const count = ARITY[operator]!
    if (operator === 4) polylines.at(-1)!.push(polylines.at(-1)![0]!)
    else {
      const [x, y] = [data[i + count - 1]!, data[i + count]!]
      const place: [number, number] = [
        (m[0] * x + m[2] * y + m[4]) * MM,
        (height - (m[1] * x + m[3] * y + m[5])) * MM,
      ]
      if (operator === 0) polylines.push([place])
      else polylines.at(-1)!.push(place)
    }
    i += count + 1
  }
  return polylines
}
