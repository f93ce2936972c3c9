// The state in the address, after the #: what was changed in the brief, whether
// the cam is alone, and a mark of the brief it was made with. It stays in the
// browser.
const mark = document.body.dataset.mark;

export function address(changes) {
  const q = new URLSearchParams(changes);
  if (document.getElementById('alone')?.checked) q.set('show', 'cam');
  if (q.size) q.set('brief', mark);
  history.replaceState(null, '', q.size ? '#' + q : location.pathname);
}

export function fromAddress() {
  const q = new URLSearchParams(location.hash.slice(1));
  const foreign = q.has('brief') && q.get('brief') !== mark;
  const alone = q.get('show') === 'cam';
  q.delete('brief');
  q.delete('show');
  return { changes: Object.fromEntries(q), alone, foreign };
}
