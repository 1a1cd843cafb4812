// Conveniences only: every page works without this script.
for (const button of document.querySelectorAll('[data-print]')) {
  button.hidden = false
  button.addEventListener('click', () => window.print())
}
// The zone of this device stands first among those to choose from. It is not chosen: the site may lie elsewhere.
for (const zones of document.querySelectorAll('[data-zones]')) {
  const here = zones.querySelector(`optgroup option[value="${CSS.escape(Intl.DateTimeFormat().resolvedOptions().timeZone)}"]`)
  if (here) zones.options[0].after(new Option(here.text, here.value))
}
