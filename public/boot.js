// Says so when the app cannot start or has stopped. Plain script, loaded first,
// so that it can speak when nothing else can.
(function () {
  'use strict';
  var started = false;

  addEventListener('TrunkApplicationStarted', function () {
    started = true;
    var starting = document.getElementById('starting');
    if (starting) starting.remove();
  });

  // Captured: a script that does not load tells its own element only.
  addEventListener('error', function (event) {
    var script = event.target && event.target.tagName === 'SCRIPT';
    if (started ? endsProgram(event.error) : true) {
      show(script ? 'a part of the program did not load' : event.message);
    }
  }, true);

  addEventListener('unhandledrejection', function (event) {
    if (started ? endsProgram(event.reason) : true) show(String(event.reason));
  });

  // After a trap the program in memory is gone; other errors it survives.
  function endsProgram(error) {
    return typeof WebAssembly === 'object' && error instanceof WebAssembly.RuntimeError;
  }

  function show(why) {
    if (!document.body) return addEventListener('DOMContentLoaded', function () { show(why); });
    var stopped = document.getElementById('stopped');
    if (!stopped.hidden) return; // the first reason is the one that matters
    Array.from(document.body.children).forEach(function (part) { part.hidden = true; });
    document.getElementById('stopped-how').textContent = started ? 'stopped' : 'could not start';
    document.getElementById('stopped-why').textContent = why || 'nothing';
    document.getElementById('start-again').onclick = function () { location.reload(); };
    stopped.hidden = false;
  }
})();
