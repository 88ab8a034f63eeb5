"""What a browser is asked about drawings, on pages of the site and on sheets of samples."""

# Texts that cut the rim of a disc: partly in, partly out. Discs of a layout may hold words whole,
# those of a balance (`d-f-line`) none.
CUT_RIMS = """() => [...document.querySelectorAll('svg')].flatMap(svg => {
  const discs = [...svg.querySelectorAll('circle[fill-opacity]')].map(c => ({
    x: c.cx.baseVal.value, y: c.cy.baseVal.value, r: c.r.baseVal.value,
    empty: c.classList.contains('d-f-line')}));
  return [...svg.querySelectorAll('text')].flatMap(text => {
    const b = text.getBBox(), cut = b.height / 5;
    const l = b.x, r = b.x + b.width, t = b.y + cut, d = b.y + b.height - cut;
    return discs.filter(disc => {
      const near = Math.hypot(disc.x - Math.min(Math.max(disc.x, l), r),
                              disc.y - Math.min(Math.max(disc.y, t), d));
      const far = Math.hypot(Math.max(Math.abs(l - disc.x), Math.abs(r - disc.x)),
                             Math.max(Math.abs(t - disc.y), Math.abs(d - disc.y)));
      return near < disc.r - 1 && (disc.empty || far > disc.r + 1);
    }).map(() => svg.querySelector('title').textContent + ': ' + text.textContent);
  });
})"""
