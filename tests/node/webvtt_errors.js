// Parses the WebVTT texts in a JSON list on standard input; prints [{errors, cues}, ...] as JSON.
// First argument: the kind of text, "captions" or "chapters".
const { WebVTTParser } = require("webvtt-parser");
const texts = JSON.parse(require("fs").readFileSync(0, "utf8"));
const parsed = texts.map((text) => {
  const { errors, cues } = new WebVTTParser().parse(text, process.argv[2]);
  const plain = cues.map(({ startTime, endTime, text }) => ({ startTime, endTime, text }));
  return { errors, cues: plain };
});
process.stdout.write(JSON.stringify(parsed));
