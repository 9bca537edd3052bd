// The look of the page of charts: warm paper, dark ink, hairlines. Charts come in two layouts; the style shows the one that
// fits. In the dark the colours drawn into the pictures are exchanged by role.
import { COLOURS, DARK_SWAPS, FONT } from './charts/theme.js'

export const plotsStyle = `
:root{color-scheme:light dark}
body{margin:0;background:${COLOURS.paper.light};color:${COLOURS.ink.light};font:16px/1.5 ${FONT}}
main{max-width:680px;margin:0 auto;padding:20px 20px 40px}
h1{font-size:26px;line-height:1.25;margin:0 0 6px}
h2{font-size:19px;line-height:1.3;margin:0 0 6px}
h3{font-size:15px;line-height:1.35;margin:0;font-weight:600}
p{margin:6px 0;overflow-wrap:anywhere}
.quiet{color:${COLOURS.muted.light};font-size:14px}
.caution{border-left:4px solid ${COLOURS.accent.light};padding:2px 0 2px 12px;margin:16px 0}
figure{margin:30px 0 0;padding:14px 0 0;border-top:1px solid ${COLOURS.line.light};break-inside:avoid}
figcaption{margin:0 0 10px}
svg{display:block;width:100%;height:auto}
.narrow{display:none}
.several{display:grid;grid-template-columns:1fr 1fr;gap:16px}
footer{margin-top:34px;border-top:1px solid ${COLOURS.line.light};padding-top:10px}
@media screen and (max-width:560px){main{padding:14px 12px 30px}.wide{display:none}.narrow{display:block}.several{grid-template-columns:1fr}h1{font-size:22px}}
@media screen and (prefers-color-scheme:dark){body{background:${COLOURS.paper.dark};color:${COLOURS.ink.dark}}.quiet{color:${COLOURS.muted.dark}}.caution{border-color:${COLOURS.accent.dark}}figure,footer{border-color:${COLOURS.line.dark}}${DARK_SWAPS}}
@media print{body{font-size:11pt;background:none}main{max-width:none;padding:0}figure{margin-top:8mm}}
@page{margin:16mm}
`
