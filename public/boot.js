// Runs before the program: shows the frame of the app, and says so when the program cannot
// start or has stopped. A plain script, since it must work where nothing else does.
(function () {
  'use strict';
  var DATABASE = 'bleachfield'; // app/src/store
  var PREFERENCES = 'bleachfield.preferences'; // app/src/device/preferences.rs
  var started = false;
  var frame = document.getElementById('starting');

  document.documentElement.setAttribute('data-look', look());
  showPlace();
  if (/^\/(sink)?$/.test(location.pathname) && !location.search) showEmptySink();
  new MutationObserver(removeFrame).observe(document.body, { childList: true, subtree: true });

  addEventListener('TrunkApplicationStarted', function () { started = true; });

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

  // As the app chooses it from the same preference.
  function look() {
    var asks = function (query) { return matchMedia(query).matches; };
    try {
      var kept = JSON.parse(localStorage.getItem(PREFERENCES)).look;
      if (/^(light|dark|contrast)$/.test(kept)) return kept;
    } catch (_) { /* nothing kept */ }
    if (asks('(prefers-contrast: more)')) return 'contrast';
    return asks('(prefers-color-scheme: dark)') ? 'dark' : 'light';
  }

  function showPlace() {
    var first = location.pathname.split('/')[1] || 'sink';
    var place = { batch: 'batches', lot: 'batches', lots: 'batches' }[first] || first;
    var link = Array.from(frame.querySelectorAll('a')).filter(function (link) {
      return link.pathname === '/' + place;
    })[0];
    if (link) link.setAttribute('aria-current', 'page');
  }

  // Only where nothing was ever kept is the Sink known to be empty.
  function showEmptySink() {
    try {
      indexedDB.databases().then(function (all) {
        var kept = all.some(function (one) { return one.name === DATABASE; });
        var empty = document.getElementById('empty-sink').content;
        if (!kept) frame.querySelector('main').replaceChildren(empty);
      }, function () { /* not told: not known to be empty */ });
    } catch (_) { /* the same */ }
  }

  // The app's own page is complete when it has its heading.
  function removeFrame(_, observer) {
    var own = Array.from(document.querySelectorAll('main h1')).some(function (heading) {
      return !frame.contains(heading);
    });
    if (!own) return;
    observer.disconnect();
    frame.remove();
  }

  // After a trap the program in memory is gone; other errors it survives.
  function endsProgram(error) {
    return typeof WebAssembly === 'object' && error instanceof WebAssembly.RuntimeError;
  }

  function show(why) {
    var stopped = document.getElementById('stopped');
    if (!stopped.hidden) return; // the first reason is the one that matters
    Array.from(document.body.children).forEach(function (part) { part.hidden = true; });
    document.getElementById('stopped-how').textContent = started ? 'stopped' : 'could not start';
    document.getElementById('stopped-why').textContent = why || 'nothing';
    document.getElementById('start-again').onclick = function () { location.reload(); };
    stopped.hidden = false;
  }
})();
