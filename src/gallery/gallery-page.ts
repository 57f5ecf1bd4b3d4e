import { escapeXml } from '../export/escape.ts'
import type { Figure, GalleryEntry } from './figure.ts'
import { figureSvg } from './figure-svg.ts'
import { GALLERY_STYLE } from './gallery-style.ts'
import { figureWords, measureRows, paramRows, type Row } from './measure-words.ts'

/** Entries of one kind, under a heading. */
export interface GallerySection {
  readonly id: string
  readonly heading: string
  /** What the figures show. */
  readonly caption: string
  readonly entries: readonly GalleryEntry[]
}

/** The gallery as one web page that needs no other file and no script. The same input gives the same text. */
export function galleryPage(sections: readonly GallerySection[]): string {
  const shown = sections.filter(({ entries }) => entries.length > 0)
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`,
    '<title>Ditchline: the fillers</title>',
    `<style>${GALLERY_STYLE}</style>`,
    '</head>',
    '<body>',
    '<main>',
    '<h1>The fillers</h1>',
    '<p class="lead">Each is drawn as the planner fits it, and measured on what is drawn. Every figure is scaled to the same breadth; the width of the band stands below it.</p>',
    contents(shown),
    ...shown.map(sectionHtml),
    '</main>',
    '</body>',
    '</html>',
    '',
  ].join('\n')
}

const anchorOf = ({ id }: GallerySection, { name }: GalleryEntry): string => escapeXml(`${id}-${name}`)

const contents = (sections: readonly GallerySection[]): string =>
  `<nav aria-label="Fillers">\n${sections
    .map((section) => {
      const links = section.entries.map(
        (entry) => `<li><a href="#${anchorOf(section, entry)}">${escapeXml(entry.name)}</a></li>`,
      )
      return `<p>${escapeXml(section.heading)}</p>\n<ul>${links.join('')}</ul>`
    })
    .join('\n')}\n</nav>`

const sectionHtml = (section: GallerySection): string =>
  [
    `<section aria-labelledby="${section.id}">`,
    `<h2 id="${section.id}">${escapeXml(section.heading)}</h2>`,
    `<p class="caption">${escapeXml(section.caption)}</p>`,
    ...section.entries.map((entry) => entryHtml(section, entry)),
    '</section>',
  ].join('\n')

function entryHtml(section: GallerySection, entry: GalleryEntry): string {
  const id = anchorOf(section, entry)
  return [
    `<article id="${id}" aria-labelledby="${id}-title">`,
    `<header><h3 id="${id}-title">${escapeXml(entry.title)} <code>${escapeXml(entry.name)}</code></h3>`,
    `<p>${escapeXml(entry.source)}</p></header>`,
    `<div class="${section.id}">${entry.figures.map(figureHtml).join('\n')}</div>`,
    `<div class="facts">${listHtml(measureRows(entry))}${listHtml(paramRows(entry.params))}</div>`,
    '</article>',
  ].join('\n')
}

const figureHtml = (figure: Figure): string =>
  `<figure>${figureSvg(figure, 'role="img"')}<figcaption><b>${escapeXml(figure.label)}</b> ${escapeXml(figureWords(figure.measures))}</figcaption></figure>`

const listHtml = (rows: readonly Row[]): string =>
  rows.length === 0
    ? ''
    : `<dl>${rows.map(([label, value]) => `<div><dt>${escapeXml(label)}</dt><dd>${escapeXml(value)}</dd></div>`).join('')}</dl>`
