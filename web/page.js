// What a page does beyond plain links and forms, when scripts run: a large pad
// for values, Enter that goes on in tables, the place on the page kept over a
// form, and half-typed forms that survive a page put away by the phone.
// Everything works without it.
'use strict';

(() => {
  const drafts = 'draft ';
  const fields = form => [...form.elements].filter(e => e.name && (e.type === 'text' || (e.type === 'radio' || e.type === 'checkbox')));
  // What a form is about belongs to its name: a value typed for one space must
  // never come back under another.
  const about = form => [...form.elements].filter(e => e.type === 'hidden' && (e.name === 'at' || e.name === 'reading')).map(e => ' ' + e.value).join('');
  const key = form => drafts + new URL(form.action, document.baseURI).pathname + about(form);

  function keepDraft(form) {
    const kept = {};
    for (const e of fields(form)) {
      if (e.type === 'text') {
        if (e.value !== e.defaultValue) kept[e.name] = e.value;
      } else if (e.checked !== e.defaultChecked) {
        kept[e.name + ' ' + e.value] = e.checked;
      }
    }
    try {
      if (Object.keys(kept).length) sessionStorage.setItem(key(form), JSON.stringify(kept));
      else sessionStorage.removeItem(key(form));
    } catch { /* a full store loses the draft, never the form */ }
  }

  function bringBack(form) {
    let kept;
    try {
      kept = JSON.parse(sessionStorage.getItem(key(form)) || '{}');
    } catch {
      return;
    }
    for (const e of fields(form)) {
      if (e.type === 'text' && e.name in kept && e.value === e.defaultValue) e.value = kept[e.name];
      if (e.type !== 'text' && e.name + ' ' + e.value in kept) e.checked = kept[e.name + ' ' + e.value];
    }
  }

  // A form that was sent and did not come back marked as not kept is kept.
  function settleSent(root) {
    const sent = sessionStorage.getItem('sent');
    sessionStorage.removeItem('sent');
    if (sent && !root.querySelector('[data-not-kept]')) sessionStorage.removeItem(sent);
  }

  function enterGoesOn(form) {
    let moved = false; // one press moves on once, however the keyboard reports it
    form.addEventListener('keypress', event => {
      if (moved && event.key === 'Enter') event.preventDefault();
      moved = false;
    });
    form.addEventListener('keydown', event => {
      if (event.key !== 'Enter' || event.target.tagName !== 'INPUT' || event.target.type !== 'text') return;
      event.preventDefault();
      moved = true;
      const stops = [...form.querySelectorAll('input[type=text], button[type=submit]:not([tabindex="-1"])')];
      const next = stops[stops.indexOf(event.target) + 1];
      if (next) {
        next.focus();
        if (next.select) next.select();
      }
    });
  }

  const padKeys = ['7', '8', '9', 'k', '⌫', '4', '5', '6', 'M', 'C', '1', '2', '3', '0', '.'];

  function pad(input) {
    if (!matchMedia('(pointer: coarse)').matches) return;
    input.inputMode = 'none';
    const box = document.createElement('div');
    box.className = 'pad';
    box.setAttribute('role', 'group');
    box.setAttribute('aria-label', 'Pad');
    for (const sign of padKeys) {
      const b = document.createElement('button');
      b.type = 'button';
      b.textContent = sign;
      b.setAttribute('aria-label', {'⌫': 'Back one', 'C': 'Clear', 'k': 'k, thousand', 'M': 'M, million', '.': 'point'}[sign] || sign);
      b.addEventListener('click', () => {
        input.value = sign === '⌫' ? input.value.slice(0, -1) : sign === 'C' ? '' : input.value + sign;
        input.dispatchEvent(new Event('input', {bubbles: true}));
      });
      box.append(b);
    }
    (input.closest('.taking') || input.closest('.field')).after(box);
    // Pad and button stand above the bar, whatever is said over them.
    input.form.querySelector('.reading .keep')?.scrollIntoView({block: 'nearest'});
  }

  function start(root) {
    settleSent(root);
    for (const form of root.querySelectorAll('form[method=post]')) {
      bringBack(form);
      form.addEventListener('input', () => keepDraft(form));
      form.addEventListener('submit', () => {
        sessionStorage.setItem('sent', key(form));
      });
    }
    root.querySelectorAll('form[data-enter=next]').forEach(enterGoesOn);
    root.querySelectorAll('input[data-pad]').forEach(pad);
  }

  start(document);
  // The phone's shell puts a new page into <main> and says so.
  document.addEventListener('asfound:page', event => start(event.target));
})();
