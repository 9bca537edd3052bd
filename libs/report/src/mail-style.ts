// The look of the mail: warm paper, dark ink, one ember accent, hairlines instead of boxes. `inlined` is written onto the
// elements, because many mail readers drop style sheets; `kept` stays in the head for what cannot be inlined: narrow
// screens and dark mode.

export const inlined = `
body { margin: 0; padding: 0; background: #f4f1ea; color: #20242a; }
.page { width: 100%; background: #f4f1ea; }
.sheet { width: 100%; max-width: 600px; margin: 0 auto; background: #fffdf8; border-top: 5px solid #b5431a; font: 15px/1.45 -apple-system, 'Segoe UI', Roboto, Helvetica, Arial, sans-serif; color: #20242a; }
.in { padding: 0 24px 22px; }
.brow { padding: 16px 24px 0; font-size: 12px; color: #666; }
.mark { color: #b5431a; font-weight: 700; letter-spacing: .12em; }
h1 { margin: 0; padding: 6px 24px 16px; font-size: 23px; line-height: 1.25; font-weight: 700; }
h2 { margin: 0 0 8px; padding: 14px 0 0; border-top: 2px solid #20242a; font-size: 17px; line-height: 1.3; }
p { margin: 8px 0; }
.lead { margin: 16px 0 2px; font-size: 15px; font-weight: 700; color: #b5431a; }
table { border-collapse: collapse; }
.wide { width: 100%; margin: 8px 0; }
.tile { padding: 0 10px 0 0; vertical-align: top; }
.big { font-size: 25px; line-height: 1.15; font-weight: 700; white-space: nowrap; }
.unit { font-size: 14px; font-weight: 400; }
.note { font-size: 12px; color: #666; }
.address { word-break: break-all; }
.k { padding-left: 0; border-top: 1px solid #ddc; color: #666; font-size: 13px; }
.v { border-top: 1px solid #ddc; }
.h { font-size: 12px; font-weight: 400; color: #666; vertical-align: bottom; }
.c { border-top: 1px solid #ddc; }
.h0 { padding-left: 0; font-size: 12px; font-weight: 400; color: #666; vertical-align: bottom; }
.c0 { padding-left: 0; border-top: 1px solid #ddc; }
.row { padding: 0 0 8px; font-size: 13px; color: #666; }
.pt { margin: 14px 0 4px; font-size: 13px; font-weight: 700; }
.pic { display: block; width: 100%; max-width: 400px; height: auto; border: 0; font-size: 13px; line-height: 1.4; color: #666; }
.bl { padding: 7px 0 2px; font-size: 13px; }
.bs { padding: 7px 0 2px 8px; font-size: 13px; white-space: nowrap; }
.fill { height: 6px; font-size: 0; line-height: 6px; background: #b5431a; }
.part { height: 6px; font-size: 0; line-height: 6px; background: #8d8b84; }
.rest { height: 6px; font-size: 0; line-height: 6px; background: #ddc; }
ul { margin: 8px 0; padding: 0 0 0 18px; }
li { margin: 0 0 6px; }
.foot { padding: 14px 24px 26px; font-size: 11px; color: #666; word-break: break-all; }
.go { display: inline-block; padding: 12px 20px; background: #b5431a; color: #ffffff; font-weight: 700; text-decoration: none; }
`

export const kept = `
@media (max-width:480px){.in{padding:0 14px 18px!important}.brow{padding:10px 14px 0!important}.foot{padding:12px 14px 22px!important}h1{padding:2px 14px 8px!important;font-size:20px!important}.ts,.ts tbody,.ts tr,.ps,.ps tbody,.ps tr{display:block!important}.ts{margin:0!important}.t4{display:inline-block!important;width:48%!important;padding:0 0 8px!important}.big{font-size:22px!important}.ps tr{border-top:1px solid #ddc!important;padding:5px 0!important}.ps .k,.ps .v{display:inline!important;vertical-align:baseline!important;width:auto!important;border:0!important;padding:0!important}.ps .k{padding-right:7px!important}.ps .sh{display:flex!important}.ps .sh .k{flex:1}.c,.h,.c0,.h0{padding:5px 0!important;font-size:12px!important}.c,.h{padding-left:5px!important}}
@media (prefers-color-scheme:dark){body,.page{background:#101214!important}.sheet{background:#191c1f!important;border-color:#ff9566!important;color:#ece8df!important}.brow,.note,.k,.h,.h0,.row,.foot,.pic{color:#a3a49f!important}.mark,.lead{color:#ff9566!important}h2{border-color:#ece8df!important}.k,.v,.c,.c0,.ps tr{border-color:#34383c!important}.fill{background:#ff9566!important}.part{background:#7d7f7c!important}.rest{background:#34383c!important}.go{background:#ff9566!important;color:#191c1f!important}}
`
