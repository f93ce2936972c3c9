// A station in a file of its own: the scene stands in the document, packed.
import { Motion } from './motion.js';
import { Stage } from './stage.js';

async function begin() {
  const packed = Uint8Array.from(atob(JSON.parse(document.getElementById('scene').textContent)), (c) => c.charCodeAt(0));
  const { scene, inches } = await new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'))).json();
  const length = (mm) => (inches ? `${(mm / 25.4).toFixed(1)} in` : `${Math.round(mm)} mm`);
  try {
    window.stage = new Stage(document.getElementById('space'), new Motion(), { length });
  } catch {
    document.getElementById('absent').hidden = false;
    return;
  }
  window.stage.show(scene);
  document.querySelector('details.looks').open = innerWidth > 700 && innerHeight > 600;
}
begin();
