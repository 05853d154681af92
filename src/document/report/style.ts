/** The report's look: ink on foam-white paper, one earth colour; prints in black. */
export const STYLE = `
:root { --ink:#221f1b; --paper:#faf8f4; --earth:#8a5a2b; --line:#cfc6b8; --soft:#eee8dd; }
* { box-sizing:border-box }
body { margin:0 auto; padding:2.5rem 1.5rem 5rem; max-width:76rem; color:var(--ink); background:var(--paper);
  font:16px/1.5 ui-sans-serif,system-ui,"Segoe UI","Noto Sans",sans-serif }
h1 { font-size:2.2rem; line-height:1.15; margin:0 0 .3rem; overflow-wrap:anywhere }
h2 { font-size:1.35rem; margin:3rem 0 .8rem; padding-top:.6rem; border-top:3px solid var(--ink) }
h3 { font-size:1rem; margin:0 0 .3rem }
p { margin:.4rem 0; max-width:46rem }
.lead { font-size:1.15rem }
.key { display:grid; grid-template-columns:repeat(auto-fit,minmax(11rem,1fr)); gap:1px; background:var(--line); border:1px solid var(--line); margin:1.4rem 0 }
.key div { background:var(--paper); padding:.7rem .9rem }
.key b { display:block; font-size:1.5rem; line-height:1.2; font-variant-numeric:tabular-nums }
.key span { color:#5d564c }
.pair { display:grid; grid-template-columns:repeat(auto-fit,minmax(20rem,1fr)); gap:1.5rem; align-items:start }
.grid { display:grid; grid-template-columns:repeat(auto-fill,minmax(22rem,1fr)); gap:1.6rem 1.4rem }
figure { margin:0; break-inside:avoid }
figcaption { font-size:.9rem; color:#5d564c; margin-top:.25rem }
svg { display:block; width:100%; height:auto; background:#fff; border:1px solid var(--line) }
svg path { vector-effect:non-scaling-stroke; fill:none; stroke:var(--ink); stroke-width:1; fill-rule:evenodd; stroke-linejoin:round }
svg .contour { stroke:var(--earth); stroke-width:.7; opacity:.75 }
svg .top { fill:#f6f1e7; stroke-width:.7 } svg .wall { fill:#b9a88f; stroke:none }
svg .below { fill:var(--soft); stroke:none } svg .piece { fill:#fff; stroke-width:1.4 }
svg .above { stroke-dasharray:6 3; stroke-width:.8 } svg .slit { stroke-width:.8 }
svg .pin { fill:var(--ink); stroke:none } svg .board { fill:var(--soft) } svg .offcut { fill:none; stroke-dasharray:2 3 }
svg text { text-anchor:middle; font-family:inherit; fill:var(--ink); font-weight:600 }
svg .joint { fill:var(--earth); font-weight:500; paint-order:stroke; stroke:#fff; stroke-width:.3em; stroke-linejoin:round }
.wide { overflow-x:auto }
table { border-collapse:collapse; font-size:.92rem; width:100%; font-variant-numeric:tabular-nums }
th,td { text-align:left; padding:.28rem .7rem .28rem 0; border-bottom:1px solid var(--line); vertical-align:top }
th { border-bottom:2px solid var(--ink); font-weight:600 } .n { text-align:right }
.findings { list-style:none; padding:0; max-width:60rem }
.findings li { padding:.55rem .8rem; margin:.5rem 0; border-left:5px solid var(--line); background:#fff }
.findings .stop { border-color:#a11; } .findings .watch { border-color:var(--earth) }
.findings b { text-transform:uppercase; letter-spacing:.05em; font-size:.8rem; margin-right:.5rem }
.caution { border:2px solid var(--ink); padding:.8rem 1rem; margin:2rem 0; background:#fff }
.caution li { margin:.2rem 0 }
@media print { body { max-width:none; padding:0 } h2 { break-after:avoid } tr,li { break-inside:avoid } }
`;

/** The look of the ground's picture where it stands alone. */
export const PICTURE_STYLE = 'path { fill:none; stroke:#8a5a2b; vector-effect:non-scaling-stroke; stroke-width:.7 }';
