// Starts the program of the app a second time, as a worker of the page. The build
// (app/xtask/src/post_build.rs) writes the address of its script.
import start from 'PROGRAM';
start();
