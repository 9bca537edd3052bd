// The look of the mail: warm paper, dark ink, one ember accent, hairlines instead of boxes. `inlined` is written onto the
// elements, because many mail readers drop style sheets; `kept` stays in the head for what cannot be inlined: narrow
// screens and dark mode.

export const inlined = `
body { margin: 0; padding: 0; background: #f4f1ea; color: #20242a; }
.page { width: 100%; background: #f4f1ea; }
.sheet { width: 100%; max-width: 600px; margin: 0 auto; background: #fffdf8; border-top: 5px solid #b5431a; font: 15px/1.45 -apple-system, 'Segoe UI', Roboto, Helvetica, Arial, sans-serif; color: #20242a; }
.in { padding: 0 24px 22px; }
.brow { padding: 16px 24px 0; font-size: 12px; color: #6b6f76; }
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
.note { font-size: 12px; color: #6b6f76; }
.k { padding: 6px 12px 6px 0; color: #6b6f76; font-size: 13px; border-top: 1px solid #e3ded2; }
.v { padding: 6px 0; border-top: 1px solid #e3ded2; }
.h { padding: 4px 0 4px 8px; font-size: 12px; font-weight: 400; color: #6b6f76; vertical-align: bottom; }
.c { padding: 6px 0 6px 8px; border-top: 1px solid #e3ded2; }
.first { padding-left: 0; }
.row { padding: 0 0 8px; font-size: 13px; color: #6b6f76; }
.bl { padding: 7px 0 2px; font-size: 13px; }
.bs { padding: 7px 0 2px 8px; font-size: 13px; white-space: nowrap; }
.fill { height: 6px; font-size: 0; line-height: 6px; background: #b5431a; }
.part { height: 6px; font-size: 0; line-height: 6px; background: #8d8b84; }
.rest { height: 6px; font-size: 0; line-height: 6px; background: #e3ded2; }
ul { margin: 8px 0; padding: 0 0 0 18px; }
li { margin: 0 0 6px; }
.foot { padding: 14px 24px 26px; font-size: 11px; color: #6b6f76; word-break: break-all; }
.go { display: inline-block; padding: 12px 20px; background: #b5431a; color: #ffffff; font-weight: 700; text-decoration: none; }
`

export const kept = `
@media (max-width:480px){.in{padding:0 14px 18px!important}.brow{padding:12px 14px 0!important}.foot{padding:12px 14px 22px!important}h1{padding:4px 14px 12px!important;font-size:20px!important}.ts,.ts tbody,.ts tr,.ps,.ps tbody,.ps tr{display:block!important}.t4{display:inline-block!important;width:48%!important;padding:0 0 10px!important}.big{font-size:22px!important}.ps .k{display:block!important;width:auto!important;padding-bottom:0!important}.ps .v{display:block!important;border-top:0!important;padding-top:1px!important}.ps .sh{display:flex!important}.ps .sh .k{flex:1;padding-bottom:6px!important}.ps .sh .v{border-top:1px solid #e3ded2!important;padding-top:6px!important}.c,.h{padding-left:5px!important;font-size:12px!important}.first{padding-left:0!important}}
@media (prefers-color-scheme:dark){body,.page{background:#101214!important}.sheet{background:#191c1f!important;border-color:#ff9566!important;color:#ece8df!important}.brow,.note,.k,.h,.row,.foot{color:#a3a49f!important}.mark,.lead{color:#ff9566!important}h2{border-color:#ece8df!important}.k,.v,.c,.ps .sh .v{border-color:#34383c!important}.fill{background:#ff9566!important}.part{background:#7d7f7c!important}.rest{background:#34383c!important}.go{background:#ff9566!important;color:#191c1f!important}}
`
