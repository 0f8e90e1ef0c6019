/** The style of a report: plain, printable, of the reader's own light or dark. */
export const STYLE = `:root{color-scheme:light dark;--ink:#1c2226;--paper:#ffffff;--soft:#5a656c;--rule:#cfd6da}
@media (prefers-color-scheme:dark){:root{--ink:#e8edef;--paper:#171c1f;--soft:#a9b4ba;--rule:#3c464c}}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.5 system-ui,sans-serif}
main{max-width:62rem;margin:0 auto;padding:1.5rem}
h1{font-size:1.6rem;margin:0 0 .5rem}
h2{font-size:1.25rem;margin:2.5rem 0 .5rem;border-top:1px solid var(--rule);padding-top:1rem}
a{color:inherit}
table{border-collapse:collapse}
th,td{text-align:left;padding:.2rem 1.2rem .2rem 0;font-variant-numeric:tabular-nums}
ol{list-style:none;padding:0;display:grid;grid-template-columns:repeat(auto-fill,minmax(17rem,1fr));gap:1.5rem}
li:target{outline:2px solid var(--ink);outline-offset:.5rem}
h3{font-size:1rem;margin:0}
p{margin:.2rem 0 .5rem}
svg{display:block;max-width:100%;height:auto;background:#808080}
figure{margin:0}
figcaption{color:var(--soft);font-size:.85rem}
.near{image-rendering:pixelated}
.under,.over{fill:none;vector-effect:non-scaling-stroke}
.under{stroke:#ffffff;stroke-width:4px}
.over{stroke-width:2px}
.error{stroke:#d60032}
.warning{stroke:#c97400}
.information{stroke:#006ad6}
.number{fill:#1c2226;stroke:#ffffff;paint-order:stroke;font-family:system-ui,sans-serif;font-weight:bold}
@media print{li{break-inside:avoid}}`;

/** Base64 of its SHA-256, by which the page's own policy allows this style and no other. */
export const STYLE_HASH = 'cbi5XT4oX9c7TT7Ifu2+JLM1RLp201UfZeu0R+AdriQ=';
