declare module 'virtual:worker-text' {
  const text: string
  export default text
}

declare module '*.css' {}

interface ImportMeta {
  /** Files of the project by a pattern, put in when the page is built. */
  glob<T>(pattern: string, how: { query: string; import: string; eager: true }): Record<string, T>
}
