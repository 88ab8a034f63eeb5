/* Convenience for the reader: nothing on a page needs it. A classic script, so that it runs from a folder. */
(function () {
  "use strict";
  var doc = document;
  function make(name, text, attributes) {
    var node = doc.createElement(name);
    if (text) node.textContent = text;
    for (var key in attributes || {}) node.setAttribute(key, attributes[key]);
    return node;
  }
  function each(found, act) { Array.from(found, act); }
  function all(selector, inside) { return (inside || doc).querySelectorAll(selector); }
  function plain(text) {
    return text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f]/g, "").replace(/\s+/g, " ").trim();
  }
  function dayNumber(text) {
    return /^\d{4}-\d\d-\d\d$/.test(text) ? Date.parse(text) / 864e5 : NaN;
  }
  function labelled(words, control) {
    var label = make("label", words + " ");
    label.appendChild(control);
    return label;
  }

  /* The page ages: how long ago its record ends, to which day its numbers count, and what has fallen due since.
     The words for it stand in the page, beside the day of the record. */
  function tellAge() {
    var now = new Date(), said = (doc.querySelector(".to-day") || doc.body).dataset;
    function counted(words, days) { return words.replace("#", (days === 1 ? said.day : said.days).replace("#", days)); }
    var today = Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) / 864e5;
    each(all(".to-day time"), function (time) {
      var days = today - dayNumber(time.getAttribute("datetime"));
      if (days >= 1) time.parentNode.appendChild(make("span", counted(said.later, days)));
    });
    each(all("[data-from],[data-till]"), function (node) {
      node.hidden = today < dayNumber(node.dataset.from) || today >= dayNumber(node.dataset.till);
    });
    each(all("[data-due]"), function (row) {
      var over = today - dayNumber(row.dataset.due);
      if (over >= 0 && !row.querySelector(".since:not([hidden])")) {
        var words = (row.dataset.what || "") + (over ? counted(said.past, over) : said.today);
        var told = row.querySelector(".when") || row, apart = /^(P|SPAN)$/.test(told.nodeName);
        var after = told.textContent || /\S/.test((told.previousSibling || {}).data || "");
        told.appendChild(make(apart ? "span" : "p", (apart && after ? "; " : "") + words, { "class": "since small" }));
      }
      if (over >= 0) each(all(".ahead", row), function (days) { days.remove(); });
      if (over >= 0) for (var fold = row; (fold = fold.parentNode.closest("details"));) fold.open = true;
    });
  }

  /* Tables: sort by a column; a box to filter the long ones. */
  function sortKey(cell) {
    if (!cell) return "";
    var time = cell.querySelector("time");
    if (time) return time.getAttribute("datetime");
    var text = plain(cell.textContent);
    var length = /^(?:(\d+) h )?(?:(\d+) min )?(\d+) s\b/.exec(text);
    if (length) return (+(length[1] || 0)) * 3600 + (+(length[2] || 0)) * 60 + (+length[3]);
    var number = /^(?:about |at least )?([-−+]?\d+(?:\.\d+)?)/.exec(text);
    return number ? parseFloat(number[1].replace("−", "-")) : text;
  }
  function compare(a, b) {
    if (typeof a === "number" && typeof b === "number") return a - b;
    if (a === "" || b === "") return a === b ? 0 : a === "" ? 1 : -1;
    return typeof a === typeof b ? (a < b ? -1 : a > b ? 1 : 0) : typeof a === "number" ? -1 : 1;
  }
  function sortable(table) {
    var body = table.tBodies[0], head = table.tHead;
    if (!body || !head || body.rows.length < 6 || table.querySelector("[colspan],[rowspan]") || table.classList.contains("to-write")) return;
    each(head.rows[0].cells, function (cell, column) {
      if (!cell.textContent.trim() || cell.querySelector("a,button")) return;
      var button = make("button", cell.textContent, { type: "button", "class": "sort" });
      cell.textContent = "";
      cell.appendChild(button);
      button.addEventListener("click", function () {
        var down = cell.getAttribute("aria-sort") === "ascending";
        each(head.rows[0].cells, function (other) { other.removeAttribute("aria-sort"); });
        cell.setAttribute("aria-sort", down ? "descending" : "ascending");
        var rows = Array.from(body.rows, function (row, at) { return [sortKey(row.cells[column]), at, row]; });
        rows.sort(function (a, b) { return (down ? -1 : 1) * compare(a[0], b[0]) || a[1] - b[1]; });
        rows.forEach(function (row) { body.appendChild(row[2]); });
      });
    });
    if (body.rows.length < 20 || table.closest(".tale")) return;
    var box = make("input", "", { type: "search", autocomplete: "off" });
    var form = make("p", "", { "class": "sieve" });
    form.appendChild(labelled("Only rows with", box));
    (table.closest(".scroll") || table).before(form);
    box.addEventListener("input", function () {
      var words = plain(box.value).split(" ");
      each(body.rows, function (row) { row.hidden = !has(plain(row.textContent), words); });
    });
  }
  function has(text, words) {
    return words.every(function (word) { return text.indexOf(word) >= 0; });
  }

  /* The logbook: only the entries of a kind, an item, a station, or with some words. */
  function choice(words, name, values) {
    var select = make("select", "", { name: name });
    select.appendChild(make("option", "all", { value: "" }));
    values.forEach(function (value) { select.appendChild(make("option", value, { value: value })); });
    return labelled(words, select);
  }
  function filterLog(place) {
    var entries = all(".entry"), seen = { kind: {}, items: {}, stations: {} };
    if (entries.length < 8) return;
    each(entries, function (entry) {
      for (var name in seen) (entry.dataset[name] || "").split(name === "kind" ? "|" : " ").forEach(function (value) { if (value) seen[name][value] = 1; });
    });
    var form = make("form", "", { "class": "sieve", role: "search", "aria-label": "Filter the entries" });
    [["Kind", "kind"], ["Item", "items"], ["Station", "stations"]].forEach(function (pair) {
      var values = Object.keys(seen[pair[1]]).sort();
      if (values.length > 1) form.appendChild(choice(pair[0], pair[1], values));
    });
    form.appendChild(labelled("With the words", make("input", "", { type: "search", name: "words", autocomplete: "off" })));
    var told = make("p", "", { role: "status", "class": "small soft" });
    form.appendChild(told);
    place.appendChild(form);
    function sieve() {
      var asked = {}, shown = 0;
      each(form.elements, function (control) { if (control.name) asked[control.name] = control.value; });
      var words = plain(asked.words || "").split(" ");
      each(entries, function (entry) {
        var fits = (!asked.kind || entry.dataset.kind === asked.kind) &&
          ["items", "stations"].every(function (name) { return !asked[name] || (" " + entry.dataset[name] + " ").indexOf(" " + asked[name] + " ") >= 0; }) &&
          has(plain(entry.textContent), words);
        entry.hidden = !fits;
        shown += fits ? 1 : 0;
      });
      each(all(".entries"), function (list) {
        var empty = !list.querySelector(".entry:not([hidden])"), before = list.previousElementSibling;
        list.hidden = empty;
        if (before && before.classList.contains("day")) before.hidden = empty;
      });
      each(all(".month details"), function (fold) {
        fold.hidden = !fold.querySelector(".entry:not([hidden])");
        fold.open = shown < entries.length && !fold.hidden;
      });
      each(all(".month"), function (month) { month.hidden = !month.querySelector(".entry:not([hidden])"); });
      told.textContent = shown === entries.length ? "" : shown + " of " + entries.length + " entries on this page";
    }
    form.addEventListener("input", sieve);
    form.addEventListener("submit", function (event) { event.preventDefault(); });
    sieve();
  }

  /* Find: one box over everything; the data comes as a script of its own. */
  function find(place) {
    var index = window.bookIndex, home = place.getAttribute("data-find"), most = 60;
    if (!index) return;
    var texts = index.map(function (row) { return plain(row[0] + " " + row[1]); });
    var form = make("form", "", { "class": "sieve", role: "search", "aria-label": "Find in this book" });
    var box = make("input", "", { type: "search", name: "q", autocomplete: "off" });
    var told = make("p", "", { role: "status", "class": "small soft" });
    var list = make("ul", "", { "class": "plain ruled hits" });
    form.appendChild(labelled("Entries, parts, settings with", box));
    [form, told, list].forEach(function (node) { place.appendChild(node); });
    function search() {
      var words = plain(box.value).split(" "), found = [];
      list.textContent = "";
      if (!words[0]) { told.textContent = ""; return; }
      texts.forEach(function (text, at) { if (has(text, words)) found.push(index[at]); });
      found.slice(0, most).forEach(function (row) {
        var item = make("li"), link = make("a", row[1], { href: home + row[2] });
        item.appendChild(make("span", row[0] + " ", { "class": "soft small" }));
        item.appendChild(link);
        list.appendChild(item);
      });
      told.textContent = found.length + " found" + (found.length > most ? ", the first " + most + " shown" : "");
    }
    box.addEventListener("input", search);
    form.addEventListener("submit", function (event) { event.preventDefault(); var first = list.querySelector("a"); if (first) first.click(); });
    box.focus({ preventScroll: true });
    search();
  }

  tellAge();
  each(all(".scroll > table, .answers, .short"), sortable);
  each(all("[data-filter=log]"), filterLog);
  /* Its data is there by then. */
  doc.addEventListener("DOMContentLoaded", function () { each(all("[data-find]"), find); });
}());
