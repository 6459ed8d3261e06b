// Prints the report of the Khronos glTF validator on the file named by the first argument, as JSON.
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';

const validator = createRequire(process.env.OUTSIDERS + '/')('gltf-validator');
const report = await validator.validateBytes(new Uint8Array(await readFile(process.argv[2])));
process.stdout.write(JSON.stringify(report));
