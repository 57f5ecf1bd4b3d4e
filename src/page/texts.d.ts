declare module 'virtual:worker-text' {
  const text: string
  export default text
}

declare module '*.yaml?raw' {
  const text: string
  export default text
}

declare module '*.css' {}
