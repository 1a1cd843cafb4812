// Conveniences only: every page works without this script.
for (const button of document.querySelectorAll('[data-print]')) {
  button.hidden = false
  button.addEventListener('click', () => window.print())
}
