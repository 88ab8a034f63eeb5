"""What a page is asked, in the language of browsers. Each gives a list of faults in words."""

# Names an element so that a person finds it, and says whether a reader sees it.
_COMMON = """
const named = node => {
  const steps = [];
  for (let e = node; e && e !== document.body && steps.length < 4; e = e.parentElement) {
    const classes = [...e.classList].map(c => '.' + c).join('');
    steps.unshift(e.localName + (e.id ? '#' + e.id : classes));
  }
  return steps.join(' > ');
};
const seen = e => e.checkVisibility({checkOpacity: true, checkVisibilityCSS: true});
const cuts = e => /auto|scroll|hidden|clip/.test(getComputedStyle(e).overflowX);
// Words that are there for screen readers only: clipped to a dot, or moved off the page.
const unseen = e => {
  for (let up = e; up && up !== document.body; up = up.parentElement) {
    if (up.getBoundingClientRect().right < 0) return true;
    if (getComputedStyle(up).clipPath.startsWith('inset(50%')) return true;
  }
  return false;
};
const words = () => {
  const found = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const parent = node.parentElement;
    if (!node.data.trim() || /^(title|desc|script|style|option)$/.test(parent.localName)) continue;
    if (parent.closest('select') || !seen(parent) || unseen(parent)) continue;
    found.push([node, parent]);
  }
  return found;
};
const boxes = (node, parent) => {
  const range = document.createRange();
  range.selectNodeContents(node);
  return [...range.getClientRects()].filter(b => b.width > 0.5 && b.height > 0.5);
};
"""


def _probe(body: str) -> str:
    return f"() => {{ {_COMMON} {body} }}"


# A page that scrolls sideways, and words in its margin, where only drawings may reach on a phone.
SIDEWAYS = _probe("""
const held = e => {
  for (let up = e; up && up !== document.body; up = up.parentElement)
    if (cuts(up)) return true;
  return false;
};
const main = document.querySelector('main') || document.body;
const margin = main.getBoundingClientRect().right - parseFloat(getComputedStyle(main).paddingRight);
const past = words().filter(([node, parent]) => main.contains(parent)
  && !parent.closest('figure, .build-picture') && !held(parent)
  && boxes(node, parent).some(b => b.right > margin + 1.5));
const room = Math.min(innerWidth, document.documentElement.clientWidth);
const scrolls = document.documentElement.scrollWidth > room;
const out = scrolls ? [...document.body.querySelectorAll('*')].filter(e =>
  seen(e) && e.getBoundingClientRect().right > room + 0.5 && !held(e.parentElement)) : [];
const inner = out.filter(e => !out.some(other => other !== e && e.contains(other)));
return inner.slice(0, 5).map(e => {
  const right = Math.round(e.getBoundingClientRect().right);
  return `${named(e)} ends at ${right} px of ${room}: ${e.textContent.trim().slice(0, 40)}`;
}).concat(
  scrolls && !inner.length ? [`the page is ${document.documentElement.scrollWidth} px wide`] : [],
  past.slice(0, 5).map(([node, parent]) =>
    `"${node.data.trim().slice(0, 40)}" in the margin (${named(parent)})`));
""")

# The box of a line of text holds the gap between lines too: a fifth of it is cut above and below.
OVERLAPS = _probe("""
const placed = [];
for (const [node, parent] of words()) {
  const windows = [];
  for (let up = parent; up && up !== document.body; up = up.parentElement)
    if (!(up instanceof SVGElement && up.ownerSVGElement) && cuts(up))
      windows.push(up.getBoundingClientRect());
  for (const b of boxes(node, parent)) {
    const cut = b.height / 5;
    const one = {parent, text: node.data.trim().slice(0, 40),
                 l: b.left, r: b.right, t: b.top + cut, b: b.bottom - cut};
    for (const w of windows) {
      one.l = Math.max(one.l, w.left); one.r = Math.min(one.r, w.right);
      one.t = Math.max(one.t, w.top); one.b = Math.min(one.b, w.bottom);
    }
    if (one.r - one.l > 1 && one.b - one.t > 1) placed.push(one);
  }
}
placed.sort((one, other) => one.t - other.t);
const faults = [];
placed.forEach((one, at) => {
  for (let next = at + 1; next < placed.length && placed[next].t < one.b - 1.5; next++) {
    const other = placed[next];
    if (one.parent === other.parent) continue;
    const wide = Math.min(one.r, other.r) - Math.max(one.l, other.l);
    const high = Math.min(one.b, other.b) - Math.max(one.t, other.t);
    if (wide > 1.5 && high > 1.5)
      faults.push(`"${one.text}" over "${other.text}" (${named(one.parent)})`);
  }
});
return [...new Set(faults)].slice(0, 8);
""")

# Words that end outside what shows them: a drawing, or a box that hides the rest without scrolling.
CUT_OFF = _probe("""
const faults = [];
for (const [node, parent] of words()) {
  const drawing = parent.closest('svg');
  let box = drawing;
  for (let up = parent; !box && up && up !== document.body; up = up.parentElement)
    if (/hidden|clip/.test(getComputedStyle(up).overflowX)) box = up;
  if (!box) continue;
  const room = box.getBoundingClientRect();
  for (const b of boxes(node, parent)) {
    const over = Math.max(room.left - b.left, b.right - room.right);
    if (over > 1.5) faults.push(`"${node.data.trim().slice(0, 40)}" by ${Math.round(over)} px`
                                + ` (${named(parent)})`);
  }
}
return [...new Set(faults)].slice(0, 8);
""")

LEAST_TYPE_PX = 11

SMALL_TYPE = _probe(f"""
const faults = new Map();
for (const [node, parent] of words()) {{
  let size = parseFloat(getComputedStyle(parent).fontSize);
  if (parent instanceof SVGElement) {{
    const matrix = parent.getScreenCTM();
    size *= Math.hypot(matrix.a, matrix.b);
  }}
  if (size < {LEAST_TYPE_PX} - 0.05 && !faults.has(named(parent)))
    faults.set(named(parent), `${{size.toFixed(1)}} px: "${{node.data.trim().slice(0, 30)}}"`
                              + ` (${{named(parent)}})`);
}}
return [...faults.values()].slice(0, 8);
""")

# What is smaller than a thumb needs, 24 px each way; a link that wraps counts by its largest line.
SMALL_TARGETS = _probe("""
document.querySelectorAll('details').forEach(one => one.open = true);
const faults = [];
for (const e of document.querySelectorAll('a[href], button, summary, input, select, textarea')) {
  if (e.ownerSVGElement || !seen(e) || unseen(e)) continue;
  const boxes = [...e.getClientRects()];
  const high = Math.max(...boxes.map(b => b.height)), wide = Math.max(...boxes.map(b => b.width));
  if (Math.min(high, wide) < 23.9)
    faults.push(`${named(e)}: "${e.textContent.trim().slice(0, 30)}",`
                + ` ${wide.toFixed(0)} by ${high.toFixed(0)} px`);
}
return faults.slice(0, 8);
""")

# Text and tables that a reader without scripts would miss; closed details open without one, and
# what stands on paper alone is not for a screen.
HIDDEN = _probe("""
const faults = [];
for (const e of document.querySelectorAll('main table, main dl, main p, main li, main svg')) {
  const box = e.getBoundingClientRect();
  const folded = e.closest('details:not([open])');
  // What will be so on a later day waits for it; the way up doubles the contents beside a story.
  if (folded || e.closest('.sprite, symbol, defs, .on-paper, [data-from], .up')) continue;
  if (!seen(e) || (e.textContent.trim() && box.width * box.height === 0)) faults.push(named(e));
}
return [...new Set(faults)].slice(0, 8);
""")

# Controls that would do nothing without scripts.
DEAD_CONTROLS = _probe("""
const found = document.querySelectorAll('button, select, textarea, input:not([type=checkbox])');
return [...found].filter(seen).map(named);
""")

# Anything wider than the paper: it would be cut, as paper doesn't scroll.
OFF_PAPER = _probe("""
const room = document.documentElement.clientWidth + 1;
const out = [...document.body.querySelectorAll('*')].filter(e => {
  if (!seen(e) || unseen(e)) return false;
  const box = e.getBoundingClientRect();
  return box.width > 0 && box.right > room && !e.ownerSVGElement;
});
const inner = out.filter(e => !out.some(other => other !== e && e.contains(other)));
return inner.slice(0, 5).map(e => `${named(e)} ends at`
  + ` ${Math.round(e.getBoundingClientRect().right)} px of ${room}`);
""")

# Writes down, at each step of the focus, what has it and whether that can be seen.
WATCH_FOCUS = """() => {
  const can = 'a[href], button, input, select, textarea, summary, [tabindex]';
  const able = [...document.querySelectorAll(can)].filter(
    e => e.tabIndex >= 0 && !e.disabled && e.checkVisibility({visibilityProperty: true}));
  const look = e => {
    const s = getComputedStyle(e);
    return [s.outlineStyle === 'none' ? '' : s.outlineWidth, s.boxShadow, s.borderColor,
            s.backgroundColor, s.textDecorationLine].join('|');
  };
  const rest = new Map(able.map(e => [e, look(e)]));
  window.walked = [];
  window.able = able.length;
  document.addEventListener('focusin', event => {
    const e = event.target, box = e.getBoundingClientRect();
    const named = `${e.localName}.${e.className} "${e.textContent.trim().slice(0, 30)}"`;
    const clear = box.width > 0 && box.height > 0 && box.bottom > 0 && box.top < innerHeight
                  && box.right > 0 && box.left < innerWidth;
    window.walked.push({named, at: able.indexOf(e), marked: look(e) !== rest.get(e), clear});
  });
}"""
