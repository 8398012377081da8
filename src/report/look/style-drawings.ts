/** How are the drawings set? Weights as in the trade: faces heavy, priority parts heavy, hidden and open things hatched or dotted. */
export const drawingStyle = `
svg{display:block;max-width:100%;height:auto;font-family:inherit}
svg text{fill:var(--ink);font-size:12.5px;font-family:inherit}
svg .soft{fill:var(--soft);font-size:12px}
svg .middle{text-anchor:middle}
svg .heavy,svg .figure{font-weight:700}
svg tspan.figure{fill:var(--soft)}
.face{stroke:var(--ink);stroke-width:2}
.core{stroke:var(--soft);stroke-width:1;stroke-dasharray:22 5 4 5}
.band{stroke:var(--rule);stroke-width:1;stroke-dasharray:1 4}
.riser{fill:none;stroke:var(--rule);stroke-width:1}
.slab{fill:var(--slab);stroke:var(--ink);stroke-width:.8}
rect.heavy{stroke-width:2.2}
.hatch{stroke:var(--accent);stroke-width:1}
.edge,.break{fill:none;stroke:var(--accent);stroke-width:1}
.edge{stroke-dasharray:3 3}
.axis{stroke:var(--ink);stroke-width:1.4}
.tick{stroke:var(--ink);stroke-width:.7}
.threshold{stroke:var(--rule);stroke-width:.8}
.lane{stroke:var(--hair);stroke-width:1}
.mark,.expected{fill:var(--ink)}
.exact,.bound{stroke:var(--ink);stroke-width:1.6}
.bound{stroke-dasharray:4 4}
.ring{fill:var(--paper);stroke:var(--ink);stroke-width:1.2}
.rule text{paint-order:stroke;stroke:var(--paper);stroke-width:4px;stroke-linejoin:round}
.rule .label{font-weight:700}
.drawing{margin:14px 0 18px;overflow-x:auto}
.drawing .broad,.drawing .wide,.drawing .mid,.drawing .phone{display:none}
@media (min-width:1180px){.drawing .wide{display:block}}
@media (min-width:1440px){.broadly{margin-inline:-116px}.broadly .broad{display:block}.broadly .wide{display:none}}
@media (min-width:720px) and (max-width:1179.98px){.drawing .mid{display:block}}
@media (max-width:719.98px){.drawing .phone{display:block}}
`;
