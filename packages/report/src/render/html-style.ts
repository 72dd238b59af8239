/** Paper on a screen: dark on white in every theme, as it will be printed. */
export const htmlStyle = `
:root{color-scheme:light}
body{margin:0;background:#fff;color:#111;font:15px/1.45 "DejaVu Sans Condensed","DejaVu Sans",Verdana,sans-serif}
main{max-width:46rem;margin:0 auto;padding:1.25rem}
header{display:flex;gap:.75rem;align-items:center;border-bottom:1px solid #111;padding-bottom:.5rem}
header img{height:2.6rem;max-width:40%;object-fit:contain}
header b{margin-left:auto;font-size:.85em}
h1{margin:.6rem 0 .2rem;font-size:1.5rem;line-height:1.2}
h1 small{display:block;font-size:.9rem;font-weight:400;color:#444}
h2{margin:1.1rem 0 .3rem;font-size:1rem}
p{margin:.35rem 0}
.lead{font-size:1.1rem}
.small,.note,figcaption,footer{font-size:.8rem;color:#444}
.statement{display:flex;flex-wrap:wrap;justify-content:space-between;gap:.2rem 1rem;margin:.5rem 0;padding-bottom:.3rem;border-bottom:2px solid #111;font-size:1.6rem;font-weight:700;line-height:1.2}
.notice{border:2px solid #111;padding:.4rem .7rem;margin:.6rem 0}
.columns{display:flex;flex-wrap:wrap;gap:0 1.5rem}
.columns>div{flex:1 1 0;min-width:min(16rem,100%)}
dl{display:grid;grid-template-columns:minmax(6rem,46%) 1fr;gap:.2rem .6rem;margin:.3rem 0;font-size:.88rem}
dt{color:#444}dd{margin:0}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-size:.85rem;font-variant-numeric:tabular-nums}
th,td{text-align:left;vertical-align:top;padding:.2rem .5rem .2rem 0;font-weight:400}
[align=right]{text-align:right}
thead th{font-weight:700;border-bottom:1.5px solid #111;vertical-align:bottom}
tbody tr{border-bottom:1px solid #bbb}
figure{margin:.6rem 0;overflow-x:auto}figure svg{width:100%;min-width:27rem;height:auto}
figcaption{position:sticky;left:0}
@media (max-width:32rem){.wide table{min-width:34rem}}
footer{margin-top:1.2rem;border-top:1px solid #111;padding-top:.3rem}
@media print{main{max-width:none;padding:0}}
`.trim();
