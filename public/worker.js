// Starts the app's program once more, as the worker of the page that asked for it.
// The build (demo/ship/src/bin/precache.rs) writes the name here, in both lines.
import start from 'PROGRAM.js';
start({ module_or_path: 'PROGRAM_bg.wasm' });
