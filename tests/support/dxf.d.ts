declare module 'dxf' {
  export function parseString(text: string): { readonly entities: readonly unknown[] }
}
