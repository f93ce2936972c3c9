// overlapping lists what of a page lies on something else: texts, line by line, and
// controls, as far as they are to be seen. What lies on the page by intent, in place while
// it scrolls or raised above it, is compared with itself alone.
function overlapping() {
  const things = [];
  const layer = (e) => {
    for (; e; e = e.parentElement) {
      const style = getComputedStyle(e);
      if (/fixed|sticky/.test(style.position) || style.zIndex !== 'auto') return e;
    }
    return null;
  };
  const seen = (box, e) => {
    let [left, top, right, bottom] = [box.left, box.top, box.right, box.bottom];
    for (; e && e !== document.body; e = e.parentElement) {
      if (getComputedStyle(e).overflow === 'visible' || e.localName === 'text') continue;
      const b = e.getBoundingClientRect();
      [left, top, right, bottom] = [Math.max(left, b.left), Math.max(top, b.top), Math.min(right, b.right), Math.min(bottom, b.bottom)];
    }
    return { left, top, right, bottom };
  };
  const add = (name, e, box) => {
    const s = seen(box, e);
    if (s.right - s.left > 1 && s.bottom - s.top > 1) things.push({ name: name.trim().replace(/\s+/g, ' ').slice(0, 40), e, layer: layer(e), ...s });
  };
  const shown = (e) => e.checkVisibility({ opacityProperty: true, visibilityProperty: true });
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let n = walk.nextNode(); n; n = walk.nextNode()) {
    const e = n.parentElement;
    if (!n.data.trim() || e.closest('script, style, title, desc, option, textarea') || !shown(e)) continue;
    const r = document.createRange();
    r.selectNodeContents(n);
    for (const box of r.getClientRects()) add(n.data, e, box);
  }
  for (const e of document.querySelectorAll('input, select, button, textarea')) {
    if (shown(e)) add(e.localName + ' ' + (e.ariaLabel || e.name || e.id), e, e.getBoundingClientRect());
  }
  const found = [];
  things.forEach((a, i) => {
    for (const b of things.slice(0, i)) {
      if (a.layer !== b.layer || a.e.contains(b.e) || b.e.contains(a.e)) continue;
      const w = Math.min(a.right, b.right) - Math.max(a.left, b.left), h = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (w > 1 && h > 0.3 * Math.min(a.bottom - a.top, b.bottom - b.top)) found.push(a.name + ' on ' + b.name);
    }
  });
  return found;
}
