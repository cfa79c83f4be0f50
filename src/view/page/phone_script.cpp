#include "view/page/phone_script.hpp"

namespace inkturn {
namespace {

constexpr std::string_view script_text = R"js(
(() => {
'use strict';
const all = (root, what) => Array.from(root.querySelectorAll(what));
const byId = id => document.getElementById(id);
const main = document.querySelector('main');
const line = byId('line'), wrong = byId('wrong'), said = byId('said'), copied = byId('copied');
const retries = all(main, '.retry');
const fields = all(main, 'input, select');
const place = 'inkturn ' + main.dataset.page;

// ISO/IEC 7064, MOD 97-10, of the characters' codes less 32.
const checkDigits = text => {
  let left = 0;
  for (let i = 0; i < text.length; ++i) left = (left * 100 + text.charCodeAt(i) - 32) % 97;
  const number = String(98 - left * 100 % 97);
  return number.length < 2 ? '0' + number : number;
};

const today = () => {
  const now = new Date();
  const two = number => String(number).padStart(2, '0');
  return now.getFullYear() + '-' + two(now.getMonth() + 1) + '-' + two(now.getDate());
};

const marksOf = part => {
  const typed = all(part, 'input').map(box => box.value.trim());
  const why = part.querySelector('select').value;
  const name = 'part ' + part.dataset.part;
  const max = Number(part.dataset.max);
  if (typed.join('') + why === '') return {};
  if (why === '-') return typed.join('') === '' ? {marks: '-'} : {wrong: name + ' has marks, and says it was not attempted'};
  if (typed.some(text => !/^[0-9]{0,3}$/.test(text))) return {wrong: name + ': write whole numbers'};
  if (typed[0] === '') return {wrong: name + ': write the marks in time, 0 if there were none'};
  const [inTime, overtime, corrected] = typed.map(Number);
  const sum = inTime + overtime + corrected;
  if (sum > max) return {wrong: name + ' is worth ' + max + ', and ' + sum + ' are written'};
  if (inTime === max && why !== '') return {wrong: name + ' earned all its marks in time: take the reason out'};
  let marks = String(inTime);
  if (overtime + corrected > 0) marks += '+' + overtime;
  if (corrected > 0) marks += '+' + corrected;
  return {marks: marks + (why === '' ? '' : ':' + why)};
};

// What the line has of a retry, and what is wrong with it; neither if nothing is written.
const read = retry => {
  const parts = all(retry, '.part');
  const found = parts.map(marksOf);
  if (found.every(one => one.marks === undefined && one.wrong === undefined)) return {};
  const day = retry.querySelector('.done').value;
  const faults = [];
  if (day === '') faults.push('write the day it was done');
  if (day > today()) faults.push('its day is still to come');
  found.forEach((one, i) => {
    if (one.wrong !== undefined) faults.push(one.wrong);
    else if (one.marks === undefined) faults.push('part ' + parts[i].dataset.part + ' has no marks yet');
  });
  if (faults.length > 0) return {faults: faults.map(fault => retry.dataset.name + ': ' + fault + '.')};
  return {text: retry.dataset.start + ',' + day + found.map((one, i) => ',' + parts[i].dataset.part + '=' + one.marks).join('')};
};

const update = () => {
  const found = retries.map(read);
  const texts = found.filter(one => one.text !== undefined).map(one => one.text);
  const faults = found.filter(one => one.faults !== undefined).map(one => one.faults).reduce((a, b) => a.concat(b), []);
  wrong.textContent = '';
  for (const fault of faults) {
    const item = document.createElement('li');
    item.textContent = fault;
    wrong.append(item);
  }
  const text = main.dataset.start + texts.join('');
  line.value = faults.length > 0 || texts.length === 0 ? '' : text + ';' + checkDigits(text) + ';end';
  byId('copy').disabled = line.value === '';
  copied.textContent = '';
  if (faults.length > 0) said.textContent = 'Before there is a line:';
  else if (texts.length === 0) said.textContent = 'No marks are written yet.';
  else said.textContent = 'The line holds ' + texts.length + ' of ' + retries.length + (retries.length === 1 ? ' retry' : ' retries') + '. Send back the whole line.';
};

const keep = () => {
  const values = {};
  for (const field of fields) if (field.value !== '') values[field.id] = field.value;
  try { localStorage.setItem(place, JSON.stringify(values)); return true; } catch (refused) { return false; }
};

const bringBack = () => {
  try {
    const values = JSON.parse(localStorage.getItem(place)) || {};
    for (const field of fields) if (typeof values[field.id] === 'string') field.value = values[field.id];
  } catch (refused) { /* nothing was kept */ }
};

main.addEventListener('input', event => {
  const retry = event.target.closest('.retry');
  const done = retry && retry.querySelector('.done');
  if (done && event.target !== done && done.value === '') done.value = today();
  update();
  keep();
});

byId('copy').addEventListener('click', () => {
  line.focus();
  line.select();
  const told = ok => { copied.textContent = ok ? 'Copied.' : 'Hold a finger on the line and choose to copy it.'; };
  const plainly = () => { try { return document.execCommand('copy'); } catch (refused) { return false; } };
  if (!navigator.clipboard) told(plainly());
  else navigator.clipboard.writeText(line.value).then(() => told(true), () => told(plainly()));
});

byId('clear').addEventListener('click', () => {
  if (!confirm('Clear all marks on this page?')) return;
  for (const field of fields) field.value = '';
  update();
  keep();
});

bringBack();
byId('kept').textContent = keep()
  ? 'What you write stays in this browser, and nowhere else, until you clear it.'
  : 'This browser keeps nothing once the page is closed: copy the line before that.';
update();
})();
)js";

} // namespace

std::string_view phone_script() {
    return script_text;
}

} // namespace inkturn
