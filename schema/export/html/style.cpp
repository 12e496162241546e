#include "schema/export/html/style.hpp"

namespace tenth::page {

const std::string_view kStyle = R"css(
@page { margin: 13mm 12mm 15mm; }
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
.mark { white-space: nowrap; font-weight: bold; }
.sign { width: 1.15em; height: 1.15em; vertical-align: -.22em; margin-right: .35em; fill: none; stroke: #111;
  stroke-width: 1.7; stroke-linejoin: round; }
.sign .solid { fill: #111; } .sign .cut { stroke: #fff; stroke-width: 2.2; }
.outlines { display: grid; grid-template-columns: repeat(var(--columns), 1fr); gap: 3mm 1.5mm; margin: 2mm 0; }
figure { margin: 0; break-inside: avoid; } figcaption { font-size: 8.5pt; text-align: center; }
.outline { display: block; width: 100%; max-width: 36mm; margin: 0 auto; overflow: visible; }
.outline text { font-size: 11px; text-anchor: middle; dominant-baseline: middle; fill: #333; }
.outline .size { font-size: 12.5px; font-weight: bold; fill: #111; } .outline .level { font-size: 12.5px; fill: #111; }
.outline .allowed { fill: #e4e4e4; stroke: #777; stroke-width: .6; } .outline .limit { fill: none; stroke: #777; stroke-width: .6; }
.outline .inner { fill: #fff; } .outline .measured { fill: none; stroke: #000; stroke-width: 1.5; stroke-linejoin: round; }
.outline .touch { fill: #000; } .outline .beyond { fill: #fff; stroke: #000; stroke-width: 1.3; }
.bar { display: block; width: 44mm; height: 5.28mm; }
.bar .allowed { fill: #e4e4e4; } .bar .limit { stroke: #555; stroke-width: 1; } .bar .measured, .bar .target { fill: #000; }
.bar .mean { fill: #fff; stroke: #000; stroke-width: 1.4; }
table { border-collapse: collapse; margin: 1mm 0 3mm; width: 100%; font-size: 8.8pt; }
th { text-align: left; font-weight: normal; color: #444; font-size: 8pt; border-bottom: .8pt solid #111; vertical-align: bottom; }
th, td { padding: .7mm 2mm .7mm 0; } td { border-bottom: .4pt solid #bbb; vertical-align: top; } tr { break-inside: avoid; }
.figures td, .figures th { white-space: nowrap; } .figures .number { width: 18mm; } .figures td.number { font-weight: bold; }
.figures { break-inside: avoid; } .figures .wide { width: 50mm; } .figures td.note { white-space: normal; }
.readings, .gauges, .settings, .decisions { font-size: 7.6pt; line-height: 1.25; }
.readings { font-size: 7.2pt; } .readings td { white-space: nowrap; } .readings td.note, .readings td.raw { white-space: normal; } .readings .raw { min-width: 23mm; }
.readings .day td { font-weight: bold; padding-top: 2mm; } .decisions .when, .settings .when { white-space: nowrap; }
code { font: .92em "DejaVu Sans Mono", Menlo, Consolas, monospace; overflow-wrap: anywhere; white-space: pre-wrap; }
.head { font-size: 9pt; border: .8pt solid #111; padding: 2mm 3mm; display: block; }
footer { margin-top: 6mm; color: #444; font-size: 8pt; }
)css";

}  // namespace tenth::page
