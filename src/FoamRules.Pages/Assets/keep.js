// Keeps what was typed into a form until it is on record: a phone loses its signal, a pocket presses a button. Without this
// script the form is sent all the same. The form's key is kept with it, so that whatever is sent twice is done once.
const prefix = 'foamrules-form/'
const network = document.currentScript.src
const read = name => { try { return JSON.parse(localStorage.getItem(name)) } catch { return null } }
const write = (name, value) => { try { localStorage.setItem(name, JSON.stringify(value)) } catch { /* no room or not allowed: the form works without */ } }

const answered = document.querySelector('[data-sent]')?.dataset.sent
if (answered) {
  for (const name of Object.keys(localStorage)) {
    if (name.startsWith(prefix) && read(name)?.key === answered) localStorage.removeItem(name)
  }
}

const form = document.querySelector('form[data-keep]')
if (form) {
  const name = prefix + form.dataset.keep
  const state = form.querySelector('[data-keep-state]')
  // What shows that the form is this site's own, or what the service saw, is never kept: it must be of this page.
  const fresh = ['form-token', 'seen', 'shown']
  const fields = [...form.elements].filter(field => field.name && !fresh.includes(field.name))
  const ticks = field => field.type === 'checkbox' || field.type === 'radio'
  const say = what => { state.textContent = state.dataset[what] }
  let sending = false

  const keep = waiting => write(name, {
    key: form.elements.key.value,
    waiting,
    values: fields.filter(field => !ticks(field) || field.checked).map(field => [field.name, field.value]),
  })

  const restore = kept => {
    for (const field of fields) {
      const values = kept.values.filter(pair => pair[0] === field.name).map(pair => pair[1])
      if (ticks(field)) field.checked = values.includes(field.value)
      else if (values.length > 0) field.value = values[0]
    }
  }

  // Asks for something small first: a form that is sent without a signal would leave an error page in its place.
  const send = async () => {
    if (sending) return
    sending = true
    say('sending')
    try {
      const answer = await fetch(network, { method: 'GET', cache: 'no-store' })
      if (!answer.ok) throw new Error(answer.statusText)
      form.submit()
    } catch {
      sending = false
      say('waiting')
      setTimeout(() => { if (read(name)?.waiting) send() }, 10000)
    }
  }

  form.addEventListener('input', () => { keep(false); say('kept') })
  form.addEventListener('submit', event => { event.preventDefault(); keep(true); send() })
  addEventListener('online', () => { if (read(name)?.waiting) send() })
  // Back from the answer: the page in the browser's memory still has the key that is used up.
  addEventListener('pageshow', event => { if (event.persisted) location.reload() })

  const kept = read(name)
  if (form.dataset.answered) {
    // The service has answered this form and shows it again with what is wrong.
    keep(false)
  } else if (kept) {
    restore(kept)
    if (kept.waiting) send()
    else say('kept')
  }
}
