/** Says on a terminal what is being done, and wipes it when done; silent in a pipe. */
export class Progress {
  readonly #stream: NodeJS.WriteStream
  #shown = false

  constructor(stream: NodeJS.WriteStream = process.stderr) {
    this.#stream = stream
  }

  say(text: string): void {
    if (!this.#stream.isTTY) return
    this.#stream.write(`\r\u001b[2K${text}`)
    this.#shown = true
  }

  done(): void {
    if (this.#shown) this.#stream.write('\r\u001b[2K')
    this.#shown = false
  }
}
