// Runs before the program: shows the frame of the app, and says so when the program cannot
// start or has stopped, with the clock of each running bath and how to stop it. A plain script,
// since it must work where nothing else does.
(function () {
  'use strict';
  var DATABASE = 'bleachfield'; // app/src/storage/indexed_db.rs
  var PREFERENCES = 'bleachfield.preferences'; // app/src/platform/preferences.rs
  var IF_STOPPED = 'bleachfield.if_stopped'; // app/src/screens/sink/if_stopped.rs
  var DEMO = 'bleachfield.demo'; // app/src/platform/demo.rs
  var LAST_PANIC = 'bleachfield.last_panic'; // app/src/platform/panic.rs
  var BASE = new URL('./', document.baseURI).pathname; // the folder of the app
  var here = location.pathname.slice(BASE.length);
  var started = false;
  var fatal = false; // the program is gone, and was not merely late or hampered
  var frame = document.getElementById('starting');

  document.documentElement.setAttribute('data-look', look());
  showPlace();
  if (/^(sink)?$/.test(here) && !location.search) showEmptySink();
  new MutationObserver(removeFrame).observe(document.body, { childList: true, subtree: true });

  // Before the program listens: kept for it (app/src/platform/install.rs).
  addEventListener('beforeinstallprompt', function (event) {
    event.preventDefault();
    window.bleachfieldInstall = event;
    dispatchEvent(new Event('bleachfield:installable'));
  });

  addEventListener('TrunkApplicationStarted', function () {
    started = true;
    if (!fatal) document.getElementById('stopped').hidden = true; // it started all the same
  });

  // From the panic hook, which has stored it for Help. The trap that follows says less.
  addEventListener('bleachfield:panic', function (event) {
    fatal = true;
    show(event.detail);
  });

  // Where the book cannot be opened, the program asks for the clocks of what it kept.
  addEventListener('bleachfield:running', function (event) { showBaths(event.target); });

  // Captured: a script that does not load tells its own element only.
  addEventListener('error', function (event) {
    var script = event.target && event.target.tagName === 'SCRIPT';
    if (endsProgram(event.error)) stoppedUnseen(event.error);
    else if (!started) show(script ? 'a part of the program did not load' : event.message);
  }, true);

  addEventListener('unhandledrejection', function (event) {
    if (endsProgram(event.reason)) stoppedUnseen(event.reason);
    else if (!started) show(String(event.reason));
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
    var first = here.split('/')[0] || 'sink';
    var place = { batch: 'batches', lot: 'batches', lots: 'batches' }[first] || first;
    var link = Array.from(frame.querySelectorAll('a')).filter(function (link) {
      return link.pathname === BASE + place;
    })[0];
    if (link) link.setAttribute('aria-current', 'page');
  }

  // Only where nothing was ever kept is the Sink known to be empty.
  function showEmptySink() {
    try {
      if (sessionStorage.getItem(DEMO)) return;
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

  // A trap without a panic, such as no more memory: the hook did not see it.
  function stoppedUnseen(error) {
    fatal = true;
    var text = error + '\n' + (error.stack || '');
    if (!show(text)) return;
    try {
      var last = { at: new Date().toISOString(), version: kept().version || '?', text: text };
      localStorage.setItem(LAST_PANIC, JSON.stringify(last));
    } catch (_) { /* no storage: it is shown, not kept */ }
  }

  // Puts the report in place of the page. All of it goes, since an open dialog would keep the
  // rest from being pressed. False if one is shown: the first reason is the one that matters.
  function show(why) {
    var stopped = document.getElementById('stopped');
    if (!stopped || !stopped.hidden) return false;
    var about = kept();
    var head = document.getElementById('stopped-head');
    if (started) head.textContent = words(about).head || head.getAttribute('data-stopped');
    fill(stopped, 'data-word', words(about));
    document.getElementById('stopped-why').textContent = why || 'nothing';
    document.getElementById('start-again').onclick = startAgain;
    showBaths(document.getElementById('stopped-baths'));
    document.body.replaceChildren(stopped);
    stopped.hidden = false;
    scrollTo(0, 0);
    return true;
  }

  // In the person's own book: a fault of the demo studio is not to come back.
  function startAgain() {
    try {
      sessionStorage.removeItem(DEMO);
    } catch (_) { /* no storage, no demo */ }
    location.assign(BASE + 'sink');
  }

  // What the program keeps for this page while baths run; nothing of it is sure to be there.
  function kept() {
    try {
      return JSON.parse(localStorage.getItem(IF_STOPPED)) || {};
    } catch (_) {
      return {};
    }
  }

  function words(about) {
    return about.words || {};
  }

  // The running baths as they were kept, with their clocks.
  function showBaths(place) {
    var template = document.getElementById('stopped-bath');
    var baths = kept().baths;
    if (template && Array.isArray(baths)) baths.forEach(function (bath) {
      var card = template.content.cloneNode(true).firstElementChild;
      fill(card, 'data-slot', bath);
      (bath.how || []).forEach(function (step) {
        card.querySelector('ol').appendChild(document.createElement('li')).textContent = step;
      });
      place.appendChild(card);
      tick(card, bath);
      setInterval(tick, 1000, card, bath);
    });
  }

  function tick(card, bath) {
    var now = Date.now();
    card.querySelector('.elapsed').textContent = elapsed(now - bath.started_ms);
    var over = bath.end_ms && now >= bath.end_ms;
    card.querySelector('[data-slot=end]').textContent = (over ? bath.end_past : bath.end) || '';
  }

  // As a stopwatch shows it: "4:05", "1:12:05".
  function elapsed(ms) {
    var seconds = Math.max(0, Math.floor(ms / 1000)) || 0;
    var two = function (n) { return (n < 10 ? '0' : '') + n; };
    var h = Math.floor(seconds / 3600), m = Math.floor(seconds / 60) % 60;
    return (h ? h + ':' + two(m) : m) + ':' + two(seconds % 60);
  }

  // Writes texts into the elements that name them; what has no text stays.
  function fill(within, attribute, texts) {
    Array.from(within.querySelectorAll('[' + attribute + ']')).forEach(function (element) {
      var text = texts[element.getAttribute(attribute)];
      if (text) element.textContent = text;
    });
  }
})();
