import { parseXml, XmlElement, XmlError, type XmlNode, XmlProcessingInstruction } from '@rgrove/parse-xml'
import { type Affine, compose, IDENTITY } from '../geometry/affine.ts'
import { transformStroke } from '../geometry/stroke.ts'
import { refuseDrawing } from './drawing-fault.ts'
import { DRAWING_LIMITS } from './drawing-limits.ts'
import { readPath, type Subpath } from './read-path.ts'
import { readTransform } from './read-transform.ts'
import { refuseRisky } from './refuse-risky.ts'

/** What is drawn, and what is only said about it: elements in which nothing is shown by itself. */
const UNSEEN = new Set([
  'defs',
  'metadata',
  'title',
  'desc',
  'style',
  'clipPath',
  'mask',
  'marker',
  'pattern',
  'symbol',
])
const GROUPS = new Set(['svg', 'g', 'a', 'switch'])
/** Elements that run, load or show something from elsewhere. */
const FOREIGN = new Set([
  'script',
  'foreignObject',
  'image',
  'use',
  'iframe',
  'object',
  'embed',
  'audio',
  'video',
  'animate',
  'set',
  'animateMotion',
  'animateTransform',
])

/** A path of the drawing, where it stands, and the map that it is shown under. */
interface Found {
  readonly data: string
  readonly offset: number
  readonly map: Affine
}

/**
 * Reads the one path of an SVG drawing, in the drawing's own frame (y down).
 *
 * @throws DrawingRefusal if it is no SVG with one path, or holds anything that runs or refers elsewhere
 */
export function readDrawing(text: string): Subpath[] {
  const root = parse(text)
  if (localName(root) !== 'svg')
    refuseDrawing('not-svg', `the file holds <${shown(root.name)}>; a drawing is an SVG file`, {
      offset: root.start,
    })
  const paths: Found[] = []
  collect(root, IDENTITY, paths)
  const [path, second] = paths
  if (!path) refuseDrawing('no-path', 'the drawing has no path; draw the repeat as one')
  if (second)
    refuseDrawing(
      'many-paths',
      `the drawing has ${paths.length} paths; it needs one, drawn without lifting the pen`,
      {
        hint: 'join them into one path, and delete what is not part of the repeat',
        offset: second.offset,
      },
    )
  return readPath(path!.data).map((part) => ({
    ...part,
    stroke: transformStroke(part.stroke, path!.map),
    offset: path!.offset,
  }))
}

function parse(text: string): XmlElement {
  if (text.length > DRAWING_LIMITS.bytes)
    refuseDrawing('too-large', `the drawing has more than ${DRAWING_LIMITS.bytes / 1024} KiB`, {
      hint: 'keep only the path',
    })
  refuseRisky(text)
  try {
    const document = parseXml(text, { includeOffsets: true })
    for (const node of document.children) refuseAround(node)
    return document.root!
  } catch (error) {
    if (error instanceof XmlError)
      refuseDrawing('xml', `broken XML: ${sentence(error.message)}`, { offset: error.pos })
    throw error
  }
}

/** The first line of the parser's message, without the place, beginning small. */
function sentence(message: string): string {
  const [first = ''] = message.split('\n')
  const plain = first.replace(/ \(line \d+, column \d+\)$/, '').replaceAll('`', '"')
  return plain.charAt(0).toLowerCase() + plain.slice(1)
}

/** No instruction to other programs. */
function refuseAround(node: XmlNode): void {
  if (node instanceof XmlProcessingInstruction)
    refuseDrawing(
      'instruction',
      `the drawing has an instruction <?${shown(node.name)} ...?>; it is refused`,
      {
        hint: 'delete that line',
        offset: node.start,
      },
    )
}

const localName = ({ name }: XmlElement): string => name.slice(name.indexOf(':') + 1)

/** What belongs to the program that it was drawn with. */
const isOther = ({ name }: XmlElement): boolean => name.includes(':') && !name.startsWith('svg:')

const shown = (name: string): string => (name.length > 30 ? `${name.slice(0, 30)}...` : name)

/** Looks through all elements, seen or not; keeps the paths that are seen. */
function collect(element: XmlElement, outer: Affine | undefined, paths: Found[]): void {
  refuseForeign(element)
  const name = localName(element)
  const { attributes, start } = element
  const isHidden = attributes.display === 'none' || /display\s*:\s*none/.test(attributes.style ?? '')
  const isSeen = outer !== undefined && !isHidden && !isOther(element) && !UNSEEN.has(name)
  const map = isSeen
    ? attributes.transform
      ? compose(readTransform(attributes.transform, start), outer)
      : outer
    : undefined
  if (map && name === 'path') paths.push({ data: attributes.d ?? '', offset: start, map })
  else if (map && !GROUPS.has(name))
    refuseDrawing(
      'other-shape',
      `the drawing has a <${shown(element.name)}>; it needs one path and nothing else`,
      {
        hint: 'turn it into a path, or delete it',
        offset: start,
      },
    )
  for (const child of element.children) {
    if (child instanceof XmlElement) collect(child, map, paths)
    else refuseAround(child)
  }
}

function refuseForeign(element: XmlElement): void {
  const { start, attributes } = element
  if (FOREIGN.has(localName(element)))
    refuseDrawing('foreign', `the drawing has a <${shown(element.name)}>; it is refused`, {
      hint: 'a drawing holds one path, nothing that runs or is kept elsewhere',
      offset: start,
    })
  for (const [key, value] of Object.entries(attributes)) {
    const name = key.slice(key.indexOf(':') + 1).toLowerCase()
    if (/^on/.test(name))
      refuseDrawing('foreign', `the drawing runs something: ${shown(key)}; it is refused`, { offset: start })
    const refers = (name === 'href' || name === 'src') && !value.trim().startsWith('#')
    if (refers || /url\(\s*["']?(?!["'#\s])/i.test(value) || /@import/i.test(value))
      refuseDrawing(
        'reference',
        `the drawing refers to something outside of it: ${shown(key)}; it is refused`,
        {
          offset: start,
        },
      )
  }
}
