// Makes the pictures of the guide from the demo art, into docs/guide/pictures: npm run docs:pictures
// A name makes the pictures of that module alone: node docs/pictures/make.mjs stages
const wanted = process.argv.slice(2);
for (const name of ['words', 'stages', 'charts', 'speed', 'jobs']) {
  if (wanted.length === 0 || wanted.includes(name)) await import(`./${name}.mjs`);
}
