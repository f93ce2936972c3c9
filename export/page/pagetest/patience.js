// awaits names what a script waits for from here on. What takes longer than the patience
// ends the script with that name, whatever it is that never comes: an answer, a picture, a
// download, the browser itself.
function awaits(what, seconds = 400) { // the machine may be busy
  clearTimeout(awaits.timer);
  awaits.timer = setTimeout(() => {
    console.error(`waited ${seconds} s for ${what}`);
    process.exit(1);
  }, seconds * 1000);
  awaits.timer.unref();
}
awaits('the browser to start');
