// Faults of the layout of what is shown, each a line of text: what is wider than the screen,
// controls under 48 px, text that is cut off, text or controls that lie on each other.
// Where a dialog is open, of the dialog alone. Boxes are in CSS pixels.
const TOUCH = 47.5;
const root = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
const faults = [];
const tidy = (text) => (text ?? '').replace(/\s+/g, ' ').trim();
const named = (e) => {
  const kind = typeof e.className === 'string' && e.className ? `.${e.className.trim().split(/\s+/)[0]}` : '';
  return `${e.tagName.toLowerCase()}${kind} “${tidy(e.innerText || e.textContent || e.name || e.id).slice(0, 40)}”`;
};
const shown = (e) => e.checkVisibility({ visibilityProperty: true, opacityProperty: true })
  && !e.closest('[inert], .visually-hidden');
const size = (box) => `${Math.round(box.width)}x${Math.round(box.height)}`;

// What stays in place while the rest scrolls: only what has the same is compared.
const anchors = new WeakMap();
const anchor = (e) => {
  if (!e || e === root) return root;
  if (!anchors.has(e)) {
    const stays = /fixed|sticky/.test(getComputedStyle(e).position);
    anchors.set(e, stays ? e : anchor(e.parentElement));
  }
  return anchors.get(e);
};
const scrollsX = (e) => /auto|scroll/.test(getComputedStyle(e).overflowX) && e.scrollWidth > e.clientWidth;
const inScroller = (e) => { for (let up = e.parentElement; up && up !== root; up = up.parentElement) if (scrollsX(up)) return true; return false; };

// --- wider than the screen
const all = [...root.querySelectorAll('*')].filter((e) => !e.closest('template, noscript, script, style'));
const edge = root === document.body ? innerWidth : root.getBoundingClientRect().left + root.clientWidth;
const wide = all.filter((e) => e.getClientRects().length && shown(e) && !e.closest('svg *') && !inScroller(e))
  .filter((e) => e.getBoundingClientRect().right > edge + 0.5 || e.getBoundingClientRect().left < -0.5)
  .filter((e, _, wider) => !wider.some((other) => other !== e && e.contains(other)));
if (document.documentElement.scrollWidth > innerWidth || root.scrollWidth > root.clientWidth + 1) {
  for (const e of wide.slice(0, 6)) faults.push(`wider than the screen: ${named(e)}`);
  if (!wide.length) faults.push(`wider than the screen by ${document.documentElement.scrollWidth - innerWidth} px`);
}

// --- small controls. A link within a sentence is exempt (WCAG 2.2, 2.5.8, "inline").
const controls = all.filter((e) => e.matches('button, select, textarea, summary, nav a, a.button, a.card, input:not([type=radio], [type=checkbox], [type=file], [type=range])'))
  .filter((e) => e.getClientRects().length && shown(e));
for (const e of controls) {
  const box = e.getBoundingClientRect();
  if (Math.min(box.width, box.height) < TOUCH && box.width > 1) faults.push(`under 48 px: ${named(e)} ${size(box)}`);
}

// --- texts with their boxes, one for each line
const texts = [];
const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
for (let node; (node = walker.nextNode());) {
  const element = node.parentElement;
  if (!node.data.trim() || !shown(element) || element.closest('option, script, style, template, noscript')) continue;
  const range = document.createRange();
  range.selectNodeContents(node);
  for (const box of range.getClientRects()) if (box.width > 1 && box.height > 1) texts.push({ node, element, box });
}

// --- text that is cut: by a box that hides what is outside, or in a field that is too short
const cut = new Set();
for (const { element, box } of texts) {
  if (element.closest('svg')) {
    const svg = element.ownerSVGElement ?? element.closest('svg');
    const view = svg.getBoundingClientRect();
    const hides = getComputedStyle(svg).overflow !== 'visible';
    if (hides && (box.left < view.left - 2 || box.right > view.right + 2)) cut.add(element);
    continue;
  }
  const slack = box.height * 0.2;
  for (let up = element; up && up !== root.parentElement; up = up.parentElement) {
    const style = getComputedStyle(up);
    const outer = up.getBoundingClientRect();
    const [left, top] = [outer.left + up.clientLeft, outer.top + up.clientTop];
    const hides = (overflow) => /hidden|clip/.test(overflow);
    if (style.display !== 'inline') {
      if (hides(style.overflowX) && (box.right > left + up.clientWidth + 1.5 || box.left < left - 1.5)) cut.add(up);
      if (hides(style.overflowY) && (box.bottom > top + up.clientHeight + slack || box.top < top - slack)) cut.add(up);
      if (/auto|scroll/.test(style.overflowX + style.overflowY)) break;
    }
    if (/fixed/.test(style.position)) break;
  }
}
const pen = document.createElement('canvas').getContext('2d');
for (const e of all.filter((e) => e.matches('select, input:not([type=radio], [type=checkbox], [type=file], [type=range])') && shown(e))) {
  const style = getComputedStyle(e);
  const text = e.tagName === 'SELECT' ? e.selectedOptions[0]?.text : e.value || e.placeholder;
  if (!text || /date|time/.test(e.type)) continue;
  pen.font = `${style.fontStyle} ${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  const room = e.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
  const width = pen.measureText(text).width;
  if (width > room + 2) faults.push(`text cut in its field: ${e.tagName.toLowerCase()} “${tidy(text).slice(0, 40)}” ${Math.round(width)} px in ${Math.round(room)}`);
}
for (const e of cut) faults.push(`text cut off: ${named(e)}`);

// --- text on text: another element's line lies on more than a third of this one
texts.sort((one, other) => one.box.top - other.box.top);
const lying = new Set();
for (let i = 0; i < texts.length; i += 1) {
  for (let j = i + 1; j < texts.length && texts[j].box.top < texts[i].box.bottom; j += 1) {
    const [one, other] = [texts[i], texts[j]];
    if (one.node === other.node || anchor(one.element) !== anchor(other.element)) continue;
    const across = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
    // Letters fill about the middle two thirds of a line's box.
    const inset = 0.18 * (one.box.height + other.box.height);
    const down = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top) - inset;
    if (across > 3 && down > 2) lying.add(`text on text: “${tidy(one.node.data).slice(0, 30)}” and “${tidy(other.node.data).slice(0, 30)}”`);
  }
}
faults.push(...lying);

// --- control on control
const boxes = controls.map((e) => [e, e.getBoundingClientRect()]);
boxes.forEach(([one, a], i) => boxes.slice(i + 1).forEach(([other, b]) => {
  if (one.contains(other) || other.contains(one) || anchor(one) !== anchor(other)) return;
  const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  if (across > 4 && down > 4) faults.push(`control on control by ${Math.round(across)}x${Math.round(down)}: ${named(one)} and ${named(other)}`);
}));
return [...new Set(faults)];
