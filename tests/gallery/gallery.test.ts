import { beforeAll, describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import type { GalleryEntry } from '../../src/gallery/figure.ts'
import { drawGallery } from '../../src/gallery/gallery.ts'
import { type GallerySection, galleryPage } from '../../src/gallery/gallery-page.ts'
import { entrySheet, overviewSheet } from '../../src/gallery/gallery-sheet.ts'

/** What a motif may stitch twice: common practice for plumes and leaves, next to nothing for the rest. */
const RETRACE: Readonly<Record<string, number>> = { feather: 0.08, 'leaf-vine': 0.08 }

let sections: GallerySection[] = []
beforeAll(() => {
  sections = drawGallery(LIBRARY)
}, 120_000)
const entries = (): GalleryEntry[] => sections.flatMap((section) => section.entries)

describe('the gallery', () => {
  it('shows every filler at four sizes', () => {
    expect(sections.map(({ entries: all }) => all.map(({ name }) => name))).toEqual([
      Object.keys(LIBRARY.motifs),
      Object.keys(LIBRARY.centres),
      Object.keys(LIBRARY.corners),
    ])
    for (const { figures } of entries()) expect(figures).toHaveLength(4)
  })

  it('finds next to nothing stitched twice in any motif, straight or round a corner', () => {
    for (const { name, figures } of sections[0]!.entries)
      for (const { measures, label } of figures)
        expect(measures.retraceShare, `${name} at ${label}`).toBeLessThanOrEqual(RETRACE[name] ?? 0.01)
  })

  it('measures a gap, a density and a radius for each figure', () => {
    for (const { figures } of entries())
      for (const { measures } of figures) {
        expect(measures.gapMm).toBeGreaterThan(1)
        expect(measures.mmPerCm2).toBeGreaterThan(0.5)
        expect(measures.radiusMm).toBeGreaterThan(0)
      }
  })

  it('is one page without scripts and without anything from elsewhere, by day and by night', () => {
    const page = galleryPage(sections)
    expect(page).not.toMatch(/<script|javascript:|\son\w+=|<img|<link|url\(|@import/)
    expect(page).toContain("default-src 'none'")
    expect(page).toContain('prefers-color-scheme: dark')
    for (const { name, title } of entries()) {
      expect(page).toContain(`-${name}"`)
      expect(page).toContain(title)
    }
    expect(page.match(/<svg/g)).toHaveLength(4 * entries().length)
  })

  it('is the same for the same fillers, and shows names as they are', () => {
    const [bands] = sections
    const odd = { ...bands!.entries[0]!, name: '"><b>', title: '<i>&', source: '</article>' }
    const page = galleryPage([{ ...bands!, entries: [odd] }])
    expect(page).toBe(galleryPage([{ ...bands!, entries: [odd] }]))
    expect(page).not.toMatch(/<i>|<b>"|<\/article><\/p>/)
    expect(page).toContain('&lt;i&gt;&amp;')
  })

  it('has sheets to make pictures of', () => {
    const [bands] = sections
    expect(entrySheet(bands!.entries[0]!).match(/<svg/g)).toHaveLength(5)
    expect(overviewSheet(bands!.entries, 3).match(/<svg/g)).toHaveLength(1 + bands!.entries.length)
  })
})
