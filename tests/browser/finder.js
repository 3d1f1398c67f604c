// Finds an element by role and accessible name.
// arguments: kind ('press', 'field', or 'any' with a CSS selector as name), name, and whether
// the page stays where it is scrolled to.
// Returns the element, scrolled into view, or null.
const [kind, name, still] = arguments;
const tidy = (text) => (text || '').replace(/\s+/g, ' ').trim();
const kinds = {
  press: 'a[href], button, summary, label, [role=button], [role=tab], [role=radio], [role=switch], [role=option], [role=link], [role=menuitem], input[type=button], input[type=submit], input[type=radio], input[type=checkbox]',
  field: 'input:not([type=radio], [type=checkbox]), select, textarea, [role=textbox], [role=combobox], [role=spinbutton], [contenteditable=true]',
  any: '*',
};

// The parts of the accessible name computation (accname) that the app uses.
function called(element) {
  const by = element.getAttribute('aria-labelledby');
  if (by) return tidy(by.split(/\s+/).map((id) => document.getElementById(id)?.textContent).join(' '));
  if (element.getAttribute('aria-label')) return tidy(element.getAttribute('aria-label'));
  if (element.labels?.length) return tidy([...element.labels].map(ownWords).join(' '));
  if (element.matches('input[type=button], input[type=submit]')) return tidy(element.value);
  return tidy(element.innerText || element.textContent) || tidy(element.title);
}

// A label may wrap its field: the text of the field's options is not its name.
function ownWords(label) {
  const copy = label.cloneNode(true);
  copy.querySelectorAll('select, input, textarea, button').forEach((part) => part.remove());
  return copy.textContent;
}

function shown(element) {
  if (element.closest('[hidden], [inert]')) return false;
  // File pickers are visually hidden behind their label.
  if (element.matches('input[type=file]')) return true;
  return element.getClientRects().length > 0 && getComputedStyle(element).visibility === 'visible';
}

const dialogs = [...document.querySelectorAll('dialog[open]')];
const root = dialogs.at(-1) || document.body;
let found = [...root.querySelectorAll(kinds[kind])].filter(shown);
if (kind === 'any') found = found.filter((element) => element.matches(name));
else {
  const wanted = tidy(name).toLowerCase();
  const exact = found.filter((element) => called(element).toLowerCase() === wanted);
  const prefixed = found.filter((element) => called(element).toLowerCase().startsWith(wanted));
  const containing = found.filter((element) => called(element).toLowerCase().includes(wanted));
  found = [exact, prefixed, containing].find((some) => some.length) || [];
}
if (!still) found[0]?.scrollIntoView({ block: 'center', behavior: 'instant' });
return found[0] || null;
