// node compose.js MODULE OUT: the template of the page, in one file. Scripts and styles are allowed by what they are, so
// that nothing else in the page can ever run.
const fs = require('fs');
const crypto = require('crypto');
const [module_, out] = process.argv.slice(2);
const read = name => fs.readFileSync(name === 'MODULE' ? module_ : __dirname + '/' + name, 'utf8').replace(/<\/script/g, '<\\/script');
const parts = { STYLE: read('page.css'), MODULE: read('MODULE'), PAGE: read('page.js') };
const allowed = text => "'sha256-" + crypto.createHash('sha256').update(text).digest('base64') + "'";
parts.SCRIPTS = allowed(parts.MODULE) + ' ' + allowed(parts.PAGE);
parts.STYLES = allowed(parts.STYLE);
const page = read('page.html').replace(/<\\\/script/g, '</script').replace(/@(STYLES|STYLE|SCRIPTS|MODULE|PAGE)@/g, (_, name) => parts[name]);
fs.writeFileSync(out, page);
