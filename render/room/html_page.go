package room

// pageStyle is the style sheet of the page: black on white, figures in tables. No meaning
// is told by colour alone.
const pageStyle = `:root{color-scheme:light}
body{margin:0 auto;max-width:1160px;padding:1rem;background:#fff;color:#111;` +
	`font:1rem/1.45 'Gill Sans','Gill Sans MT','Lato','Carlito','DejaVu Sans',sans-serif}
svg{display:block;width:100%;height:auto}
h2{margin:2.2rem 0 .6rem;padding-top:.4rem;border-top:3px solid #111;font-size:1.25rem}
p.note{margin:.2rem 0 .8rem;max-width:46rem}
table{border-collapse:collapse}
th,td{padding:.22rem .7rem .22rem 0;text-align:left;vertical-align:top}
td.n{white-space:nowrap;text-align:right;font-variant-numeric:tabular-nums}
thead th{border-bottom:1.5px solid #111}
tbody tr.pass th,tbody tr.pass td{border-top:1px solid #999}
.wide{overflow-x:auto;max-width:100%}
.grids{display:flex;flex-wrap:wrap;gap:0 3.5rem}
dl{max-width:52rem;margin:0}
dt{margin-top:.8rem;font-weight:700}
dd{margin:.1rem 0 0}
dd.why{padding-left:1rem;border-left:3px solid #999;color:#333}
.free td{padding-left:1rem}
.free i{font-style:normal;font-weight:700}
.counts th,.counts td{padding:0;width:1.5rem;min-width:1.1rem;text-align:center;font-variant-numeric:tabular-nums}
.counts th:first-child{width:4rem;text-align:left;padding-right:.6rem}
.counts .one{border-left:1px solid #999}
.counts td div{display:flex;align-items:flex-end;height:1.5rem;border-bottom:1px solid #111;margin:.12rem 1px}
.counts td div b{display:block;width:100%;background:#111}
.counts td span{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.counts tr.open td{font-size:1.1rem;line-height:1.2}
@media(max-width:640px){body{padding:.6rem;font-size:.92rem}th,td{padding-right:.45rem}}
@media print{h2,p.note,dt,caption,thead{break-after:avoid}tr,dd,` +
	`.counts,svg{break-inside:avoid}dd{break-before:avoid}dl+h2,table+h2{margin-top:1.2rem}}`

// pageHead begins the page. Its verbs are the title, the style sheet, and the title again.
const pageHead = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>%s</title>
<style>
%s
</style>
</head>
<body>
<main>
<h1 style="position:absolute;left:-99rem">%s</h1>
`

// pageFoot ends the page.
const pageFoot = "</main>\n</body>\n</html>\n"
