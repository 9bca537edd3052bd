// The look of the page on a screen: warm paper, dark ink, one ember accent, hairlines instead of boxes; in the dark the
// same by role. One column for a telephone, where tables fold into blocks; paper is print-style.ts.
import { COLOURS, DARK_SWAPS, FONT, type Role } from '../charts/theme.js'
import { printStyle } from './print-style.js'

const used: readonly Role[] = ['paper', 'ink', 'muted', 'line', 'faint', 'grid', 'band', 'accent']

function variables(tone: 'light' | 'dark'): string {
  return used.map((role) => `--${role}:${COLOURS[role][tone]}`).join(';')
}

const text = `
:root{color-scheme:light dark;${variables('light')}}
@media screen and (prefers-color-scheme:dark){:root{${variables('dark')}}${DARK_SWAPS}}
*{box-sizing:border-box}
[hidden]{display:none!important}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.5 ${FONT};border-top:5px solid var(--accent);overflow-wrap:break-word}
body>*{max-width:900px;margin-left:auto;margin-right:auto;padding-left:24px;padding-right:24px}
.note{font-size:13px;color:var(--muted)}
.mark{color:var(--accent);font-weight:700;letter-spacing:.12em}
h1{margin:4px 0 10px;font-size:27px;line-height:1.25}
h2{margin:0 0 10px;font-size:20px;line-height:1.3}
h3{margin:18px 0 4px;font-size:16px;color:var(--accent)}
p{margin:8px 0}
ul{margin:8px 0;padding-left:20px}
li{margin:0 0 6px}
a{color:var(--accent)}
nav a{display:inline-block;margin-right:18px;padding:4px 0}
section,article{margin-top:28px;padding-top:14px;border-top:2px solid var(--ink)}
#answer{margin-top:8px;padding-top:0;border-top:0}
`

const blocks = `
.tiles{display:grid;grid-template-columns:repeat(4,1fr);gap:12px;margin:12px 0;padding:0;list-style:none}
.tiles li{margin:0}
.tiles strong{display:block;font-size:28px;line-height:1.15;white-space:nowrap}
.unit{font-size:15px;font-weight:400}
dl{margin:8px 0}
dl>div{display:grid;grid-template-columns:minmax(0,25%) minmax(0,1fr);gap:12px;padding:6px 0;border-top:1px solid var(--grid)}
dt{color:var(--muted);font-size:14px}
dd{margin:0}
.bars{padding:0;list-style:none}
.bars li{display:grid;grid-template-columns:1fr auto;gap:2px 10px;font-size:14px;margin:0 0 8px}
.bars svg{grid-column:1/-1;display:block;width:100%;height:7px}
.fill{fill:var(--accent)}.part{fill:var(--line)}.rest{fill:var(--grid)}
figure{margin:18px 0}
figcaption{font-weight:700;margin-bottom:6px}
figure svg{display:block;width:100%;height:auto}
.wide{max-width:640px}
.narrow{display:none}
`

const tables = `
.scroll{overflow-x:auto}
table{border-collapse:collapse;width:100%;margin:8px 0;font-variant-numeric:tabular-nums}
th{font-size:13px;font-weight:400;color:var(--muted);text-align:right;vertical-align:bottom;padding:4px 0 4px 10px}
td{text-align:right;vertical-align:top;padding:6px 0 6px 10px;border-top:1px solid var(--grid)}
th:first-child,td:first-child{padding-left:0}
.left{text-align:left}
.below{text-align:left;border-top:0;padding:0 0 8px;font-size:14px;color:var(--muted)}
#whole-list td{border-top-color:var(--faint)}
#whole-list{table-layout:fixed}
th[data-column=rank],th[data-column=margin],th[data-column=headroom]{width:7.5%}
th[data-column=purchase]{width:8.5%}
th[data-column=reaches],th[data-column=speed],th[data-column=time]{width:6.5%}
th[data-column=cost]{width:10%}
.pick>td:first-child{font-weight:700;color:var(--accent)}
th button{font:inherit;color:inherit;background:none;border:0;border-bottom:1px dotted var(--line);padding:2px 0;text-align:inherit;cursor:pointer}
th[aria-sort] button{color:var(--ink);border-bottom:1px solid var(--ink)}
th[aria-sort=ascending] button::after{content:"\\a0\\2191"}
th[aria-sort=descending] button::after{content:"\\a0\\2193"}
summary{cursor:pointer;color:var(--accent);font-size:14px;padding:4px 0}
details ul{font-size:14px;margin:2px 0 4px}
`

const tools = `
.tool{background:var(--band);padding:10px 14px 12px;border-top:0}
#own{border-top:2px solid var(--ink);padding-top:14px}
.lines{display:block;width:100%;height:auto;touch-action:pan-y;user-select:none}
.lines text{fill:var(--muted);font-size:12px;stroke:var(--band);stroke-width:3px;paint-order:stroke}
.lines .name{fill:var(--ink);font-size:13px}
.lines .unit{font-size:12px}
.stem{stroke:var(--line)}
.line{fill:none;stroke:var(--line);stroke-width:1;stroke-opacity:.7}
.lines .pick{stroke:var(--ink);stroke-width:2;stroke-opacity:1;stroke-dasharray:7 3}
.lines .first{stroke:var(--accent);stroke-width:3;stroke-opacity:1}
.many .line{stroke-opacity:.3}
.line.out{visibility:hidden}
.lines .hot{stroke:var(--ink);stroke-width:4;stroke-opacity:1}
.span{fill:var(--accent);fill-opacity:.3;stroke:var(--accent)}
.strip{fill:transparent;cursor:ns-resize;touch-action:none}
#spans,#own-numbers{display:grid;align-items:end;grid-template-columns:repeat(4,minmax(0,1fr));gap:8px 12px}
fieldset{border:0;margin:0;padding:0;min-width:0;display:flex;gap:6px}
legend{padding:0;font-size:13px;color:var(--muted)}
label{flex:1;min-width:0;font-size:13px;color:var(--muted)}
input{width:100%;font:inherit;font-size:16px;color:var(--ink);background:var(--paper);border:1px solid var(--line);padding:5px 6px;appearance:textfield}
input::-webkit-inner-spin-button{display:none}
.tool button{font:inherit;color:var(--paper);background:var(--accent);border:0;padding:6px 14px;cursor:pointer}
.bar{display:flex;justify-content:space-between;align-items:center;gap:12px}
#own-verdict{display:block;margin-top:12px;font-weight:600;min-height:1.5em}
:focus-visible{outline:2px solid var(--accent);outline-offset:2px}
`

const cards = `
.cards{border-top:0;padding-top:0}
.card{border:1px solid var(--ink);border-top-width:5px;padding:8px 18px 12px}
.card header p{margin:0}
.card h2{margin:0 0 4px}
.card h3{margin:0 0 2px}
.card section{margin-top:14px;padding-top:0;border-top:0}
.card footer p{margin:6px 0 0}
.on-the-bench td:last-child{min-width:76px;border-bottom:1px solid var(--line)}
.card .columns>:first-child{margin-top:0}
@media (min-width:760px){.columns{columns:2;column-gap:28px;margin-top:14px}.card dl>div,.card tr,.card h3{break-inside:avoid}.card h3{break-after:avoid}.card dl>div{grid-template-columns:minmax(0,38%) minmax(0,1fr)}}
`

const folded = `
@media screen and (max-width:640px){
body>*{padding-left:14px;padding-right:14px}
h1{font-size:22px}
.tiles{grid-template-columns:1fr 1fr}
.tiles strong{font-size:24px}
dl>div{grid-template-columns:1fr;gap:0}
.wide{display:none}.narrow{display:block;max-width:420px}
.scroll th,.scroll td{padding-left:6px;font-size:13px}
.scroll th:first-child,.scroll td:first-child{padding-left:0}
#spans,#own-numbers{grid-template-columns:1fr 1fr}
.tool{padding:8px 10px 12px}
.card{padding:8px 12px 12px}
#whole-list,#whole-list thead,#whole-list tbody{display:block}
#whole-list tr{display:grid;grid-template-columns:repeat(4,minmax(0,1fr));gap:0 8px;padding:8px 0;border-top:1px solid var(--faint)}
#whole-list thead tr{display:flex;flex-wrap:wrap;gap:4px 14px;border-top:0;padding:0}
#whole-list thead tr::before{content:"sort by";font-size:13px;color:var(--muted);padding:6px 0}
#whole-list thead th[data-column]{width:auto;padding:4px 0;text-align:left}
#whole-list td{border:0;padding:2px 0;text-align:left;font-size:15px}
#whole-list td[data-label]::before{content:attr(data-label);display:block;font-size:11px;line-height:1.25;color:var(--muted)}
#whole-list .what{grid-column:1/-1;width:auto}
}
`

export const pageStyle = `${text}${blocks}${tables}${tools}${cards}${folded}${printStyle}`
