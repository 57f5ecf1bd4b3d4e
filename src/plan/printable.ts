/**
 * A text as a message or a terminal may show it: control characters, halves of characters and those that turn the
 * direction of writing are written as escapes.
 */
export const printable = (text: string): string =>
  text.replaceAll(
    /[\p{Cc}\p{Cs}\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu,
    (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
