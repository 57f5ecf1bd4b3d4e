/**
 * Stands in for the PDF library inside the worker: hands on what the library's own script, run before this one, left in
 * `ditchlinePdf`. A worker started without that script cannot make a PDF, and is never asked to.
 */
import type * as Library from '@cantoo/pdf-lib'

const library = (globalThis as { ditchlinePdf?: typeof Library }).ditchlinePdf

export const PDFDocument = library?.PDFDocument
export const PDFHexString = library?.PDFHexString
export const PDFName = library?.PDFName
export const PrintScaling = library?.PrintScaling
export const StandardFonts = library?.StandardFonts
