// Focuses each control that a key reaches; returns those that another layer (a bar, a ribbon)
// then covers at their middle or within 4 px of an edge. The page may scroll while it is focused.
const root = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
const tidy = (text) => (text ?? '').replace(/\s+/g, ' ').trim();
const named = (e) => `${e.tagName.toLowerCase()} “${tidy(e.labels?.[0]?.innerText || e.innerText || e.ariaLabel || e.name || e.id).slice(0, 40)}”`;
const layer = (e) => {
  for (let up = e; up && up !== root; up = up.parentElement) if (/fixed|sticky/.test(getComputedStyle(up).position)) return up;
  return null;
};
const covered = [];
const focusable = [...root.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')]
  .filter((e) => !e.disabled && e.checkVisibility({ visibilityProperty: true }) && !e.closest('[inert]'));
const before = [scrollX, scrollY, root.scrollTop];
for (const e of focusable) {
  e.focus();
  if (document.activeElement !== e) continue;
  const box = e.getBoundingClientRect();
  const [top, bottom] = [Math.max(box.top, 0), Math.min(box.bottom, innerHeight)];
  if (box.width < 2 || box.height < 2) continue;
  const heights = box.height > innerHeight ? [(top + bottom) / 2] : [box.top + 4, (box.top + box.bottom) / 2, box.bottom - 4];
  for (const y of heights) {
    const hit = document.elementFromPoint(box.left + Math.min(box.width / 2, innerWidth), y);
    const other = hit && layer(hit);
    if (y < 0 || y > innerHeight) covered.push(`focused out of sight: ${named(e)}`);
    else if (other && other !== layer(e) && !other.contains(e)) covered.push(`covered when focused: ${named(e)} by .${other.className}`);
    else continue;
    break;
  }
}
document.activeElement?.blur();
scrollTo(before[0], before[1]);
root.scrollTop = before[2];
return covered;
