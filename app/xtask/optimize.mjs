// node optimize.mjs WASM-OPT FILE…: what `wasm-opt -Oz` does, to many files in one process, since
// its start takes longer than a small piece. WASM-OPT is the one of the npm package binaryen, whose
// library is used.
import { readFileSync, realpathSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';

const [wasmOpt, ...files] = process.argv.slice(1);
const library = new URL('../index.js', pathToFileURL(realpathSync(wasmOpt)));
const { default: binaryen } = await import(library);

// What the compiler uses and every current browser has. A split program no longer declares it.
const { Features } = binaryen;
const features =
    Features.BulkMemory |
    Features.BulkMemoryOpt |
    Features.ExtendedConst |
    Features.Multivalue |
    Features.MutableGlobals |
    Features.NontrappingFPToInt |
    Features.ReferenceTypes |
    Features.SignExt;

binaryen.setOptimizeLevel(2);
binaryen.setShrinkLevel(2);
for (const file of files) {
    const module = binaryen.readBinary(readFileSync(file));
    module.setFeatures(features);
    module.optimize();
    module.runPasses(['strip-producers', 'strip-target-features']);
    writeFileSync(file, module.emitBinary());
    module.dispose();
}
