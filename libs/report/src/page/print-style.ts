// The page on paper: no tools, no colour that wastes ink, heads of tables repeated, and each bench card on a sheet of its
// own, in two columns that fit on A4 and on Letter alike. Heads that hold buttons are not repeated by every printer of
// pages, so a button leaves its words to its cell.
export const printStyle = `
@page{margin:12mm}
@media print{
body{font-size:10pt;line-height:1.35;background:none;border-top:0}
body>*{max-width:none;padding:0}
nav,.tool,#own,summary,details{display:none!important}
h1{font-size:17pt}
h2{font-size:13pt;break-after:avoid}
h3{font-size:10.5pt;break-after:avoid}
section,article{margin-top:5mm;padding-top:2mm}
.note,th,dt,.below{font-size:8.5pt}
dl>div{padding:1mm 0}
figure{break-inside:avoid}
.wide{max-width:150mm}
thead{display:table-header-group;break-inside:avoid}
th button{display:contents}
.scroll{overflow:visible}
tr,dl>div,li{break-inside:avoid}
.ranked tbody{break-inside:avoid}
td{padding:1mm 0 1mm 2.5mm}
.cards{margin:0;padding:0}
.card{break-before:page;break-inside:avoid;margin:0;padding:0;border:0;font-size:8pt;line-height:1.25}
.card:not(:last-child){break-after:page}
.columns{columns:2;column-gap:6mm;margin-top:2mm}
.card section{margin-top:2mm}
.card h2{font-size:13pt}
.card h3{font-size:9pt}
.card p,.card ul,.card dl,.card table{margin:.5mm 0}
.card .note,.card th,.card dt{font-size:7.5pt}
.card dl>div{grid-template-columns:minmax(0,36%) minmax(0,1fr);gap:2mm;padding:.4mm 0}
.card td{padding:.5mm 0 .5mm 2mm}
.card td:first-child{padding-left:0}
.bars li{font-size:9pt}
.card li{margin:0 0 .4mm}
.card footer p{margin:1mm 0 0}
footer{break-before:avoid}
}
`
