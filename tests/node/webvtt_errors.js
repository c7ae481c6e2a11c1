// Parses the WebVTT text on standard input; prints {errors, cues} as JSON.
// First argument: the kind of text, "captions" or "chapters".
const { WebVTTParser } = require("webvtt-parser");
const text = require("fs").readFileSync(0, "utf8");
const { errors, cues } = new WebVTTParser().parse(text, process.argv[2]);
const plain = cues.map(({ startTime, endTime, text }) => ({ startTime, endTime, text }));
process.stdout.write(JSON.stringify({ errors, cues: plain }));
