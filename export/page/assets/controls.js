// The controls of the brief: a slider and a number for one value move together,
// and what differs from the brief as opened is a change, written as the file
// would have it.
export function readControls(form, { drag, settle }) {
  const all = new Map();
  for (const box of form.querySelectorAll('.control')) {
    const slider = box.querySelector('input[type=range]');
    const field = box.querySelector('input:not([type=range]), select');
    all.set(box.dataset.path, { box, slider, field, first: box.dataset.first, unit: box.dataset.unit });
    const moved = (from) => {
      if (from === slider) field.value = slider.value;
      else if (slider && field.value !== '') slider.value = field.value;
      box.classList.toggle('changed', field.value !== box.dataset.first);
      if (slider) slider.setAttribute('aria-valuetext', `${field.value} ${box.dataset.unit}`);
    };
    for (const input of [slider, field]) {
      if (!input) continue;
      input.addEventListener('input', () => { moved(input); drag(); });
      input.addEventListener('change', () => { moved(input); settle(); });
    }
  }
  return {
    // changes is what was changed, by path.
    changes() {
      const out = {};
      for (const [path, c] of all) {
        if (c.field.value !== c.first) out[path] = c.unit ? `${c.field.value} ${c.unit}` : c.field.value;
      }
      return out;
    },
    // set takes the brief as opened with the given changes.
    set(changes) {
      for (const [path, c] of all) {
        const text = changes[path];
        c.field.value = text === undefined ? c.first : c.unit ? text.replace(new RegExp(` ${c.unit}$`), '') : text;
        if (c.slider) c.slider.value = c.field.value;
        c.box.classList.toggle('changed', c.field.value !== c.first);
      }
    },
    // blame says beside a control what is wrong with it; false without one.
    blame(path, message, hint) {
      const c = all.get(path) ?? all.get(path + '.from');
      if (!c) return false;
      c.field.setAttribute('aria-invalid', 'true');
      let p = c.box.querySelector('.fault');
      if (!p) {
        p = c.box.appendChild(document.createElement('p'));
        p.className = 'fault';
        p.id = c.field.id + '-fault';
        c.field.setAttribute('aria-describedby', `${p.id} ${c.field.id}-doc`);
      }
      p.textContent = message + (hint ? ' – ' + hint : '');
      for (let d = c.box.closest('details'); d; d = d.parentElement.closest('details')) d.open = true;
      return true;
    },
    // forgive takes all blame away.
    forgive() {
      for (const c of all.values()) {
        c.field.removeAttribute('aria-invalid');
        c.box.querySelector('.fault')?.remove();
        c.field.setAttribute('aria-describedby', c.field.id + '-doc');
      }
    },
  };
}
