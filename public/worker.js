// Starts the app's program once more, as the worker of the page that asked for it. The build
// (app/xtask/src/post_build.rs) writes the address of its script.
import start from 'PROGRAM';
start();
