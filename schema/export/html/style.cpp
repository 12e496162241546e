#include "schema/export/html/style.hpp"

namespace tenth::html_page {

const std::string_view kStyle = R"css(
@page { margin: 13mm 12mm 16mm; font: 6.5pt "Liberation Sans", Arial, sans-serif; }
* { box-sizing: border-box; }
html { background: #fff; color: #111; font: 9.5pt/1.4 "Helvetica Neue", Arial, "Liberation Sans", sans-serif;
  font-variant-numeric: tabular-nums lining-nums; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
body { max-width: 186mm; margin: 0 auto; padding: 8mm 0; }
@media print { body { padding: 0; max-width: none; } }
h1, h2, h3 { line-height: 1.15; break-after: avoid; margin: 0; }
h1 { font-size: 23pt; letter-spacing: -.01em; }
h2 { font-size: 15pt; margin: 10mm 0 2mm; padding-bottom: 1mm; border-bottom: 1.5pt solid #111; }
h2 small { font-weight: normal; font-size: 9.5pt; color: #444; margin-left: 3mm; }
h3 { font-size: 11.5pt; margin: 6mm 0 1mm; }
p { margin: 0 0 2mm; max-width: 160mm; }
.kind { text-transform: uppercase; letter-spacing: .14em; font-size: 8pt; color: #444; margin: 0 0 1mm; }
.title { font-size: 12pt; margin: 1mm 0 4mm; }
.facts { display: grid; grid-template-columns: repeat(2, max-content 1fr); gap: .8mm 4mm; margin: 0 0 4mm; }
.facts dt { color: #444; } .facts dd { margin: 0; }
.whole { border: 1.5pt solid #111; padding: 3.5mm 5mm; margin: 3mm 0; break-inside: avoid; }
.whole .mark { font-size: 17pt; border: 0; padding: 0; text-transform: uppercase; letter-spacing: .04em; }
.whole p { margin: 1mm 0 0; max-width: none; } .whole ul { margin: 2mm 0 0; padding-left: 0; list-style: none; }
.whole li { display: grid; grid-template-columns: 28mm 1fr; margin: .6mm 0; }
.whole li .mark { font-size: 9.5pt; text-transform: none; letter-spacing: 0; }
.asked, .legend { color: #333; font-size: 8.5pt; } .legend { max-width: none; } .asked { break-after: avoid; }
.together { break-inside: avoid; }
.mark { white-space: nowrap; font-weight: bold; } .sign { width: 1.15em; height: 1.15em; vertical-align: -.22em; margin-right: .35em; }
.pictures { display: grid; grid-template-columns: repeat(var(--columns), 1fr); gap: 3mm 1.5mm; margin: 2mm 0; }
figure { margin: 0; break-inside: avoid; } figcaption { font-size: 8.5pt; text-align: center; overflow-wrap: anywhere; }
svg text { text-anchor: middle; dominant-baseline: middle; } svg { stroke-linejoin: round; }
.outline { display: block; width: 100%; max-width: 36mm; margin: 0 auto; overflow: visible; }
.bar { display: block; width: 44mm; height: 5.28mm; }
.chain { display: grid; grid-template-columns: 30mm 1fr; gap: 4mm; align-items: center; break-inside: avoid; } .qr { width: 30mm; }
table { border-collapse: collapse; margin: 1mm 0 3mm; width: 100%; font-size: 8.8pt; }
th { text-align: left; font-weight: normal; color: #444; font-size: 8pt; border-bottom: .8pt solid #111; vertical-align: bottom; }
th, td { padding: .7mm 2mm .7mm 0; } td { border-bottom: .4pt solid #bbb; vertical-align: top; overflow-wrap: anywhere; } tr { break-inside: avoid; }
.figures .number { width: 18mm; white-space: nowrap; } .figures td.number { font-weight: bold; }
.figures { break-inside: avoid; } .figures .picture { width: 50mm; }
.list { font-size: 7.4pt; line-height: 1.25; } .list td { min-width: 9mm; } .list .raw { min-width: 23mm; } .list .note { min-width: 30mm; }
.list .day td { font-weight: bold; padding-top: 2mm; }
.form td { height: 8mm; vertical-align: middle; border: .4pt solid #777; padding: 0 1.5mm; } .form th { padding: .7mm 1.5mm; } .form .hand { width: 13%; }
.signatures { display: grid; grid-template-columns: 3fr 3fr 2fr; gap: 13mm 6mm; padding-top: 13mm; break-inside: avoid; }
.line { border-top: .6pt solid #111; font-size: 8pt; color: #444; padding-top: .8mm; }
code { font: .92em "DejaVu Sans Mono", Menlo, Consolas, monospace; overflow-wrap: anywhere; white-space: pre-wrap; }
.head { font-size: 9pt; border: .8pt solid #111; padding: 2mm 3mm; display: block; }
footer { margin-top: 6mm; color: #444; font-size: 8pt; }
)css";

}  // namespace tenth::html_page
