import fc from 'fast-check'

/** Texts of any UTF-16 units up to U+2FFF, halves of surrogate pairs among them. */
export const anyText = fc
  .array(
    fc.oneof(
      fc.integer({ min: 0, max: 0x7f }),
      fc.integer({ min: 0, max: 0x2fff }),
      fc.integer({ min: 0xd800, max: 0xdfff }),
    ),
    {
      maxLength: 150,
    },
  )
  .map((units) => String.fromCharCode(...units))
