/** Calico, ink and one red thread, as on the page; by day and by night. */
export const GALLERY_STYLE = `
:root { color-scheme: light; --paper: #f3ecdf; --panel: #fbf7ee; --ink: #2a2420; --soft: #655a4e; --rule: #cfc2ab; --seam: #c3a98a; --thread: #7d1f19; --red: #a8241c }
@media (prefers-color-scheme: dark) {
  :root { color-scheme: dark; --paper: #1b1714; --panel: #26211d; --ink: #f1e8da; --soft: #b9ab98; --rule: #4b4238; --seam: #6a5b4a; --thread: #ffb4a6; --red: #ff9d8f }
}
* { box-sizing: border-box }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 "Avenir Next", Seravek, "Gill Sans", "Segoe UI", Ubuntu, "Noto Sans", system-ui, sans-serif }
main { max-width: 78rem; margin: 0 auto; padding: 2rem 1.25rem 4rem }
h1, h2, h3 { font-family: "Iowan Old Style", "Palatino Linotype", Palatino, "Book Antiqua", "URW Palladio L", Georgia, serif; line-height: 1.2 }
h1 { font-size: 2.25rem; margin: 0 }
h2 { font-size: 1.6rem; margin: 3rem 0 .25rem }
h3 { font-size: 1.25rem; margin: 0 }
h3 code { font-size: .8em; color: var(--soft); font-weight: 400 }
.lead, .caption, header p { max-width: 46rem; color: var(--soft); margin: .35rem 0 }
nav { margin: 1.25rem 0; padding: .75rem 0; border-block: 1px solid var(--rule) }
nav p { margin: .25rem 0 0; font-weight: 600 }
nav ul { list-style: none; margin: 0; padding: 0; display: flex; flex-wrap: wrap; gap: .1rem 1rem }
a { color: var(--red); text-underline-offset: .15em }
article { background: var(--panel); border: 1px solid var(--rule); border-radius: 4px; padding: 1.25rem; margin: 1.25rem 0; break-inside: avoid }
figure { margin: 0 }
figure svg { display: block; width: 100%; height: auto }
figcaption { font-size: .85rem; color: var(--soft); margin-top: .3rem }
figcaption b { color: var(--ink) }
.seam { fill: none; stroke: var(--seam) }
.thread { fill: none; stroke: var(--thread); stroke-linejoin: round; stroke-linecap: round }
.motifs, .centres, .corners { display: grid; gap: 1.25rem; margin: 1rem 0; align-items: end }
.motifs { align-items: start; grid-template-columns: repeat(auto-fit, minmax(min(26rem, 100%), 1fr)) }
.centres, .corners { grid-template-columns: repeat(auto-fit, minmax(min(13rem, 100%), 1fr)) }
.facts { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(24rem, 100%), 1fr)); gap: 0 2rem; border-top: 1px solid var(--rule); padding-top: .75rem; font-size: .9rem }
dl { margin: 0 }
dl div { display: grid; grid-template-columns: 8rem 1fr; gap: .75rem }
dt { color: var(--soft) }
dd { margin: 0; font-variant-numeric: tabular-nums }
@media print { article { border-color: #bbb } nav { display: none } }
`
