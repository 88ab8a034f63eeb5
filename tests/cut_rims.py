"""What a browser is asked about drawings, on pages of the site and on sheets of samples."""

# Texts that cut the rim of a disc: partly in, partly out. Discs of a layout (`d-disc`) may hold
# words whole, those of a balance (`d-f-line`) none.
CUT_RIMS = """() => [...document.querySelectorAll('svg')].flatMap(svg => {
  const discs = [...svg.querySelectorAll('circle.d-disc, circle.d-f-line')].map(c => ({
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

# Words of a drawing that lie over other words of it; a line box holds the gap between lines too.
WORDS_OVER_WORDS = """() => [...document.querySelectorAll('svg')].flatMap(svg => {
  const boxes = [...svg.querySelectorAll('text')].map(text => {
    const b = text.getBBox();
    return {text: text.textContent, l: b.x, r: b.x + b.width,
            t: b.y + b.height / 7, b: b.y + b.height * 6 / 7};
  });
  return boxes.flatMap((one, i) => boxes.slice(i + 1)
    .filter(other => one.l < other.r && other.l < one.r && one.t < other.b && other.t < one.b)
    .map(other => svg.querySelector('title').textContent + ': ' + one.text + ' / ' + other.text));
})"""
