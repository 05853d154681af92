/** The report's look: ink on foam-white paper, one earth colour. What a thing means is told by line and word, so it prints in black. */
export const STYLE = `
:root { --ink:#221f1b; --paper:#faf8f4; --earth:#8a5a2b; --line:#cfc6b8; --soft:#e9e2d5; --quiet:#5d564c }
* { box-sizing:border-box }
body { margin:0 auto; padding:2.5rem 1.5rem 5rem; max-width:76rem; color:var(--ink); background:var(--paper);
  font:16px/1.5 ui-sans-serif,system-ui,"Segoe UI","Noto Sans",sans-serif }
h1 { font-size:2.2rem; line-height:1.15; margin:0 0 .3rem; overflow-wrap:anywhere }
h2 { font-size:1.35rem; margin:3rem 0 .8rem; padding-top:.6rem; border-top:3px solid var(--ink) }
h3 { font-size:1rem; margin:0 0 .3rem }
p { margin:.4rem 0 1rem; max-width:52rem; overflow-wrap:anywhere }
a { color:var(--ink) }
nav { margin:1rem 0 1.6rem } nav a { display:inline-block; margin-right:1rem; padding:.2rem 0 }
.lead { font-size:1.15rem }
.key { display:grid; grid-template-columns:repeat(auto-fit,minmax(9rem,1fr)); margin:1.4rem 0 1rem }
.key div { border:1px solid var(--line); margin:0 0 -1px -1px; padding:.7rem .9rem; overflow-wrap:anywhere }
.key b { display:block; font-size:1.5rem; line-height:1.2; font-variant-numeric:tabular-nums }
.key span { color:var(--quiet) }
.pair { display:grid; grid-template-columns:repeat(auto-fit,minmax(min(20rem,100%),1fr)); gap:1.5rem; align-items:start }
.row, .row + .pair, .pair + .pair { margin-top:1.5rem } .pair section h2 { margin-top:1rem }
.grid { display:grid; grid-template-columns:repeat(auto-fill,minmax(min(30rem,100%),1fr)); gap:1.8rem 1.5rem; align-items:start }
.broad { grid-column:1/-1 }
figure { margin:0; min-width:0; break-inside:avoid }
figcaption { font-size:.9rem; color:var(--quiet); margin-top:.25rem; overflow-wrap:anywhere }
figcaption:has(svg) { display:flex; justify-content:space-between; align-items:start; gap:1rem } figcaption svg { flex:none; width:5.5rem }
svg { display:block; width:100%; height:auto; background:#fff; border:1px solid var(--line) }
svg path { vector-effect:non-scaling-stroke; fill:none; stroke:var(--ink); stroke-width:1; fill-rule:evenodd; stroke-linejoin:round }
svg .contour { stroke:var(--earth); stroke-width:.7; opacity:.75 }
svg .rim { stroke-width:2 } svg .rim-halo { stroke:#fff; stroke-width:5 }
svg .top { fill:#faf7f0; stroke-width:.8 } svg .foot { stroke-width:.5 }
svg .wall-lit { fill:#d9cdb8 } svg .wall { fill:#b5a58b } svg .wall-dark { fill:#85765f }
svg .wall-lit, svg .wall, svg .wall-dark { stroke:none }
svg .below { fill:var(--soft); stroke:none } svg .piece { fill:#fff; stroke-width:1.4 }
svg .above { stroke-dasharray:6 3; stroke-width:.8 } svg .slit { stroke-width:.8 } svg .wire { stroke-width:.5 } svg .leader { stroke-width:.8 }
svg .zone { stroke:var(--earth); stroke-dasharray:9 3 2 3 } svg .deck { stroke-width:1.8; stroke-dasharray:9 3 2 3; fill:#fff }
svg .thin { stroke:var(--earth); stroke-width:2.2 } svg .found { stroke-width:2.2 } svg path.disc { fill:var(--ink); stroke:#fff; stroke-width:1.5 }
svg .glue { fill:#f6e7b4; stroke:none } svg .pull { fill:#fff }
svg .pin { fill:var(--ink); stroke:none } svg .board { fill:var(--soft) } svg .offcut { stroke-dasharray:2 3 }
svg .layer { stroke-width:.5; fill:#fff } svg .foam { fill:#d3c8b6; stroke-width:.9 }
svg .ground { stroke-width:2.2 } svg .cover { stroke-width:1.4; stroke-dasharray:5 3 }
svg text { text-anchor:middle; font-family:inherit; fill:var(--ink); font-weight:700; paint-order:stroke; stroke:#fff; stroke-width:.22em; stroke-linejoin:round }
svg .joint { font-weight:500; font-style:italic } svg .remainder, svg .number { font-weight:500 }
svg .remainder { stroke:none } svg text.mark { fill:#fff; stroke:none }
.wide { overflow-x:auto } .broad .wide svg, .row .wide svg { min-width:44rem }
table { border-collapse:collapse; font-size:.92rem; min-width:min(40rem,100%); font-variant-numeric:tabular-nums }
th,td { text-align:left; padding:.28rem 1.4rem .28rem 0; border-bottom:1px solid var(--line); vertical-align:top }
th { border-bottom:2px solid var(--ink); font-weight:600 } th.n,td.n { text-align:right }
td.n, td:first-child:not(:only-child) { white-space:nowrap }
.findings { list-style:none; padding:0; max-width:60rem; overflow-wrap:anywhere }
.findings li { padding:.55rem .8rem; margin:.5rem 0; border-left:5px solid var(--line); background:#fff }
.findings .stop { border-color:#a11; border-left-width:12px } .findings .watch { border-color:var(--earth); border-left-width:8px }
.findings .mark { display:inline-block; min-width:1.5rem; padding:0 .3rem; margin-right:.5rem; border-radius:1rem; background:var(--ink); color:#fff; text-align:center; font-weight:700; font-size:.85rem; print-color-adjust:exact; -webkit-print-color-adjust:exact }
.findings b { text-transform:uppercase; letter-spacing:.05em; font-size:.8rem; margin-right:.5rem }
.caution { border:2px solid var(--ink); padding:.8rem 1rem .8rem 2.2rem; margin:0; background:#fff }
.caution li { margin:.2rem 0 }
details { border-top:1px solid var(--line); padding:.4rem 0 } summary { font-weight:600; cursor:pointer; padding:.2rem 0 } h4 { margin:1.2rem 0 .3rem }
p.caution { padding-left:1rem; max-width:60rem; font-weight:600 } table + p, .wide + p { margin-top:.5rem }
.values th { border-bottom:1px solid var(--line); font-weight:400 } .values td { font-weight:600 } small, .assumed { color:var(--quiet); font-weight:400 } .values small { display:block }
.blank { display:inline-block; width:5rem; height:1.1em; border:1px solid var(--ink); vertical-align:text-bottom } .ticks .blank, td .blank:first-child { width:1.1em } .assumed .blank { width:5rem !important } ul.ticks { list-style:none; padding-left:0 }
@media print {
  :root { --paper:#fff } body { max-width:none; padding:0 1px; font-size:10pt } nav { display:none }
  .grid, .pair { display:block } .grid figure, .pair figure { display:inline-block; vertical-align:top; width:48.5%; margin:0 .7% 1rem 0 }
  .grid .broad { width:100% } .wide { overflow:visible } th,td { padding-right:.8rem } .wide svg { min-width:0 !important }
  details td, details th { overflow-wrap:anywhere; font-size:9pt; padding-right:.4rem }
  h2,h3,section > p { break-after:avoid } tr,li { break-inside:avoid } svg { print-color-adjust:exact; -webkit-print-color-adjust:exact }
}
`;

/** The look of the ground's picture where it stands alone. */
export const PICTURE_STYLE =
  'path { fill:none; stroke:#8a5a2b; vector-effect:non-scaling-stroke; stroke-width:.7 } path.rim-halo { stroke:#fff; stroke-width:5 } path.rim { stroke:#c0182a; stroke-width:2 } text { fill:#c0182a; font-family:sans-serif; font-weight:700; text-anchor:middle; paint-order:stroke; stroke:#fff; stroke-width:.25em; stroke-linejoin:round }';
