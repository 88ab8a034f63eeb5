/* The field form: fills the lists, keeps entries in this browser, gives them out as JSON. It asks no server for anything. */
(function (start) {
  /* Chromium may drop a storage that is opened before it has noted the page: what is read then is empty, and what is
     written is gone. An answer of its databases, which is the page's own, says that it has. One that never answers is not waited for. */
  var begun = false;
  function begin() {
    if (begun) return;
    begun = true;
    start();
  }
  setTimeout(begin, 1e4);
  try { indexedDB.databases().then(begin, begin); } catch (none) { begin(); }
}(function () {
  "use strict";
  var doc = document, data = JSON.parse(doc.getElementById("field-data").textContent);
  var place = doc.getElementById("field"), begins = "field form of ", key = begins + data.hangar;
  place.appendChild(doc.getElementById("field-parts").content.cloneNode(true));
  var form = place.querySelector("form"), controls = form.elements, kind = "flight", list = [], stored = true;
  function one(selector) { return place.querySelector(selector); }
  function each(found, act) { Array.prototype.forEach.call(found, act); }
  function all(selector, act) { each(place.querySelectorAll(selector), act); }
  function make(name, text, attributes) {
    var node = doc.createElement(name);
    if (text) node.textContent = text;
    for (var name_ in attributes || {}) node.setAttribute(name_, attributes[name_]);
    return node;
  }
  function named(rows, name, value) { return rows.filter(function (row) { return row[name] === value; })[0]; }
  function moment(before) { // the clock of this place so many seconds ago
    var then = new Date(Date.now() - before * 1e3);
    return new Date(then - then.getTimezoneOffset() * 6e4).toISOString();
  }
  function today() { return moment(0).slice(0, 10); }
  function dayWords(day) {
    return new Date(day + "T00:00:00Z").toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" });
  }
  function aircraft() { return named(data.aircraft, "slug", controls.aircraft.value); }

  data.aircraft.forEach(function (plane) {
    if (plane.lapse[0] <= today()) { plane.flies = false; plane.why = plane.lapse.slice(1); }
  });

  /* Lists: groups of [heading, [[value, words], …]]; what was chosen stays chosen. */
  function fill(select, groups) {
    var before = select.value;
    select.textContent = "";
    groups.forEach(function (group) {
      var into = group[0] ? select.appendChild(make("optgroup", "", { label: group[0] })) : select;
      if (!group[1].length && group[0]) into.remove();
      group[1].forEach(function (row) { into.appendChild(make("option", row[1], { value: row[0] })); });
    });
    each(select.options, function (option) { if (option.value === before) option.selected = true; });
  }
  var choose = ["", [["", "choose"]]];
  function pair(text) { return [text, text]; }
  function packWords(pack) { return [pack.tag, pack.tag + ", " + pack.title + ", " + (pack.aside || pack.left)]; }
  function packs(fits) { return data.packs.filter(function (pack) { return !pack.aside && fits(pack); }).map(packWords); }
  function tell(node, heading, sentences) {
    node.textContent = "";
    if (heading) node.appendChild(make("p")).appendChild(make("strong", heading));
    sentences.forEach(function (sentence) { node.appendChild(make("p", sentence)); });
  }

  function show() {
    var plane = aircraft(), flies = plane && plane.flies;
    all("[data-kind]", function (button) { button.setAttribute("aria-pressed", String(button.dataset.kind === kind)); });
    one("[data-now]").textContent = kind === "flight" ? "It has just landed" : "Just now";
    one("[data-when]").textContent = kind === "flight" ? "Took off, if you like" : "Time, if you like";
    all("[data-for]", function (part) {
      var off = part.dataset.for.split(" ").indexOf(kind) < 0 || ("flies" in part.dataset && !flies);
      part.hidden = off;
      if (part.localName === "fieldset") part.disabled = off;
    });
    controls.aircraft.disabled = one("[data-for~=flight]").hidden;
    var wrong = one("[data-wrong]"), asked = kind === "flight" || kind === "check";
    if (!plane) tell(wrong, "No aircraft is in this record.", []);
    else if (kind === "flight" && !flies) tell(wrong, plane.name + " is not to be flown, by the record:", plane.why.concat("No flight of it is offered here."));
    else if (asked && plane.look.length) tell(wrong, "Open on " + plane.name + ":", plane.look);
    else tell(wrong, "", []);
    wrong.hidden = !asked;
    one("[data-rest]").hidden = one("[type=submit]").disabled = kind === "flight" && !flies;
    if (plane) ofAircraft(plane);
    ofDefect();
    ofCheck();
  }
  function ofAircraft(plane) {
    fill(controls.flown, [
      ["", [["", "not noted"]]],
      ["Flown on " + plane.name, packs(function (pack) { return plane.packs.indexOf(pack.tag) >= 0; })],
      ["Others", packs(function (pack) { return plane.others.indexOf(pack.tag) >= 0; })]
    ]);
    one("[data-motor]").hidden = !plane.motor;
    one("[data-check-flight]").hidden = !plane.check_flight;
    var open = [], passed = [];
    plane.checks.forEach(function (row) {
      var rule = data.rules[row[0]];
      (row[1] === "ok" ? passed : open).push([rule.check, rule.words + ", " + row[1]]);
    });
    fill(controls.check, [choose, ["To do", open], ["Passed", passed]]);
  }
  function ofDefect() {
    var plane = named(data.aircraft, "slug", controls.of.value.slice(1));
    var is = controls.of.value[0] === "a" && plane && plane.stations.length;
    one("[data-station]").hidden = !is;
    one("[data-until]").hidden = controls.until.disabled = controls.severity.value !== "defer";
    fill(controls.station, [["", [["", "not at a station"]].concat(is ? plane.stations.map(pair) : [])]]);
  }
  function ofCheck() {
    var plane = aircraft(), row = plane && plane.checks.filter(function (row) { return data.rules[row[0]].check === controls.check.value; })[0];
    var rule = row && data.rules[row[0]];
    one("[data-off]").hidden = !(rule && rule.off);
    one("[data-what]").textContent = rule ? rule.what + (rule.readings ? " Readings: " + rule.readings + "." : "") : "";
    one("[data-spots]").hidden = !(row && row[2].length);
    fill(controls.stations, [["", [["", "all stations"]].concat(row ? row[2].map(pair) : [])]]);
    var failed = kind === "check" && controls.outcome.value === "fail";
    controls.note.required = failed;
    one("[data-note]").textContent = failed ? "What was found" : "Note";
  }

  /* An entry has the keys of the logbook, and a name of its own, so that it is brought in once. */
  function name() {
    var bytes = crypto.getRandomValues(new Uint8Array(10)), letters = "0123456789abcdefghijkmnpqrstvwxz", text = "f-";
    each(bytes, function (byte) { text += letters[byte % 32]; });
    return text;
  }
  function value(control) { return controls[control].closest("[hidden]") ? "" : controls[control].value.trim(); }
  function put(entry, name, text) { if (text) entry[name] = text; }
  function cells(text) { return text.replace(/,/g, ".").split(/ +/).map(function (cell) { return cell + " V"; }); }
  function readings(text) {
    var found = {};
    text.split(",").forEach(function (part) { var at = part.indexOf("="); found[part.slice(0, at).trim()] = part.slice(at + 1).trim(); });
    return found;
  }
  var entries = {
    flight: function (entry) {
      var seconds = +value("seconds");
      entry.aircraft = value("aircraft");
      entry.flight = (+value("minutes")) + ":" + (seconds < 10 ? "0" : "") + seconds;
      put(entry, "pack", value("flown"));
      put(entry, "used", value("used") && +value("used") + " mAh");
      put(entry, "motor_run", value("motor_run"));
      ["landing", "noticed", "result"].forEach(function (name) { put(entry, name, value(name)); });
      if (entry.result) entry.purpose = "check";
      if (controls.preflight.checked) entry.preflight = "done";
    },
    charge: function (entry) {
      entry.charge = value("charge");
      put(entry, "put_in", value("put_in") && +value("put_in") + " mAh");
      put(entry, "to", value("to"));
      if (value("resting")) entry.resting = cells(value("resting"));
    },
    defect: function (entry) {
      entry[value("of")[0] === "a" ? "aircraft" : "item"] = value("of").slice(1);
      entry.defect = value("defect");
      put(entry, "station", value("station"));
      put(entry, "severity", value("severity"));
      if (value("until")) entry.deferred_until = { on: value("until") };
    },
    check: function (entry) {
      entry.aircraft = value("aircraft");
      entry.check = value("check");
      entry.result = value("outcome");
      if (value("stations")) entry.stations = [value("stations")];
      if (value("readings")) entry.readings = readings(value("readings"));
    }
  };
  function line(entry) {
    var plane = named(data.aircraft, "slug", entry.aircraft), words = [];
    for (var key in entry) {
      if (["on", "id", "aircraft", "item", "purpose"].indexOf(key) >= 0) continue;
      var text = typeof entry[key] === "object" ? JSON.stringify(entry[key]).replace(/[\[\]{}"]/g, "").replace(/([:,])/g, "$1 ") : entry[key];
      words.push(key.replace("_", " ") + " " + text);
    }
    return dayWords(entry.on.slice(0, 10)) + entry.on.slice(10).replace("T", ", ") + (plane ? ", " + plane.name : entry.item ? ", " + entry.item : "") + ": " + words.join(", ");
  }

  /* What is kept: rows of {entry, exported}; read again before each change, as another tab may write. */
  function parsed(text) {
    try { var rows = JSON.parse(text); } catch (error) { return null; }
    return Array.isArray(rows) && rows.every(function (row) { return row && row.entry && typeof row.entry.on === "string"; }) ? rows : null;
  }
  function read() {
    if (!stored) return;
    try {
      var text = localStorage.getItem(key), rows = text ? parsed(text) : [];
    } catch (error) { return lost(); }
    if (rows) list = rows;
    else {
      try { localStorage.setItem(key + ", unread", text); localStorage.removeItem(key); } catch (full) { return lost(); }
      list = [];
      trouble("What was kept here could not be read. It lies aside in the browser’s storage, under “" + key + ", unread”.");
    }
  }
  /* Kept under another name, as before the hangar was renamed: taken over where its keeper says so. */
  function offerFormer() {
    if (stored) Object.keys(localStorage).forEach(function (name) {
      if (name.indexOf(begins) || name === key || /, unread$/.test(name)) return;
      var rows = parsed(localStorage.getItem(name)), button = make("button", "Take over what is kept for “" + name.slice(begins.length) + "”", { type: "button" });
      if (rows && rows.length) one("[data-former]").appendChild(button).addEventListener("click", function () {
        change(function () { list = rows.concat(list); });
        if (stored) localStorage.removeItem(name);
        button.remove();
      });
    });
  }
  function write() {
    if (!stored) return;
    try {
      var text = JSON.stringify(list);
      localStorage.setItem(key, text);
      if (localStorage.getItem(key) !== text) throw new Error();
    } catch (error) { lost(); }
  }
  function lost() {
    stored = false;
    trouble("This browser keeps nothing for this page: entries are gone when it is closed or loaded again. Take them home before.");
  }
  function trouble(words) {
    one("[data-trouble]").textContent = words;
    one("[data-trouble]").hidden = false;
  }
  function change(act) { read(); act(); write(); draw(); }
  function draw() {
    var place = one("ul.kept"), done = 0;
    place.textContent = "";
    list.forEach(function (row) {
      var item = make("li"), words = make("div"), button = make("button", "Remove", { type: "button", "aria-label": "Remove: " + line(row.entry) });
      words.appendChild(make("p", line(row.entry)));
      if (row.exported) { words.appendChild(make("p", "exported on " + dayWords(row.exported), { "class": "small soft" })); done += 1; }
      button.addEventListener("click", function () {
        if (row.exported || confirm("Remove it? It was not exported.")) change(function () {
          list = list.filter(function (other) { return other.entry.id !== row.entry.id; });
        });
      });
      item.appendChild(words);
      item.appendChild(button);
      place.appendChild(item);
    });
    one("[data-none]").hidden = list.length > 0;
    place.hidden = !list.length;
    one("textarea[readonly]").value = list.length ? text() : "";
    ["file", "share", "copy"].forEach(function (way) { one("[data-do=" + way + "]").disabled = !list.length; });
    one("[data-do=clear]").disabled = !done;
  }

  /* Out of here: as a file, by the share sheet, as text. */
  function text() { return JSON.stringify({ hangar: data.hangar, entries: list.map(function (row) { return row.entry; }) }, null, 1) + "\n"; }
  function files() {
    return [["json", "application/json"], ["txt", "text/plain"]].map(function (way) {
      return new File([text()], "field-" + today() + "." + way[0], { type: way[1] });
    });
  }
  function shareable() {
    return navigator.canShare ? files().filter(function (file) { return navigator.canShare({ files: [file] }); })[0] : null;
  }
  function exported(words) {
    var ids = list.map(function (row) { return row.entry.id; });
    change(function () { list.forEach(function (row) { if (ids.indexOf(row.entry.id) >= 0) row.exported = today(); }); });
    one("[data-taken]").textContent = words;
  }
  var ways = {
    file: function () {
      var file = files()[0], link = make("a", "", { href: URL.createObjectURL(file), download: file.name });
      link.click();
      setTimeout(function () { URL.revokeObjectURL(link.href); }, 6e4);
      exported("Saved as " + file.name + ". See that it is there before you clear anything.");
    },
    share: function () {
      var file = shareable();
      navigator.share({ files: [file] }).then(function () { exported("Shared as " + file.name + "."); }, function () {});
    },
    copy: function () {
      var area = one("textarea[readonly]");
      function byHand() {
        one("[data-text]").open = true;
        area.select();
        if (doc.execCommand("copy")) exported("Copied.");
        else one("[data-taken]").textContent = "The browser does not copy for a page: the text is marked below, copy it yourself.";
      }
      if (!navigator.clipboard) return byHand();
      navigator.clipboard.writeText(text()).then(function () { exported("Copied."); }, byHand);
    },
    clear: function () {
      if (confirm("Clear what was exported? Bring it into the records first.")) change(function () {
        list = list.filter(function (row) { return !row.exported; });
      });
    }
  };

  /* A site on a server of one's own: the browser can keep the form, where its keeper wants that. */
  function offerToKeep() {
    var note = doc.getElementById("keep"), told = make("p", "", { role: "status" });
    if (!note || !("serviceWorker" in navigator) || !/^http/.test(location.protocol)) return;
    var button = make("button", "Keep the form in this browser", { type: "button" }), box = make("div", "", { "class": "field-form" });
    note.after(box);
    box.appendChild(button);
    box.appendChild(told);
    button.addEventListener("click", function () {
      navigator.serviceWorker.register(place.dataset.worker).then(function (worker) {
        return new Promise(function (resolve, reject) {
          var starting = worker.installing || worker.waiting;
          if (!starting) return resolve();
          starting.addEventListener("statechange", function () {
            if (starting.state === "activated") resolve();
            if (starting.state === "redundant") reject();
          });
        });
      }).then(function () { told.textContent = "Kept: from now on it opens without network too, at this address."; },
        function () { told.textContent = "This browser or server does not let the form be kept. Save it as one file instead."; });
    });
  }

  each(place.querySelectorAll("[data-kind]"), function (button) {
    button.addEventListener("click", function () { kind = button.dataset.kind; show(); });
  });
  all("[data-do]", function (button) { button.addEventListener("click", function () { ways[button.dataset.do](); }); });
  one("[data-now]").addEventListener("click", function () {
    if (kind === "flight" && !controls.minutes.value) return controls.minutes.reportValidity();
    var then = moment(kind === "flight" ? controls.minutes.value * 60 + +controls.seconds.value : 0);
    controls.on.value = then.slice(0, 10);
    controls.time.value = then.slice(11, 16);
  });
  form.addEventListener("change", show);
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    var entry = {}, day = value("on"), time = value("time");
    entries[kind](entry);
    entry.on = day + (time ? "T" + time : "");
    entry.id = name();
    put(entry, "by", value("by"));
    put(entry, "note", value("note"));
    change(function () { list.push({ entry: entry, exported: "" }); });
    one("[data-told]").textContent = (stored ? "Kept: " : "Noted until the page is closed: ") + line(entry);
    ["minutes", "seconds", "used", "motor_run", "charge", "put_in", "resting", "of", "defect", "until", "check", "stations", "readings", "time", "note", "landing", "noticed", "result", "outcome", "station"].forEach(function (name) {
      if (controls[name].localName === "select") controls[name].selectedIndex = 0; else controls[name].value = "";
    });
    controls.preflight.checked = false;
    show();
  });
  window.addEventListener("storage", function (event) { if (event.key === key) { read(); draw(); } });

  fill(controls.aircraft, [["", data.aircraft.map(function (plane) { return [plane.slug, plane.name + (plane.flies ? "" : ", not to be flown")]; })]]);
  fill(controls.charge, [choose, ["Packs of what flies", packs(function (pack) { return pack.first; })], ["Other packs", packs(function (pack) { return !pack.first; })]]);
  fill(controls.of, [
    choose,
    ["Aircraft", data.aircraft.map(function (plane) { return ["a" + plane.slug, plane.name]; })],
    ["Packs", data.packs.map(function (pack) { return ["p" + pack.tag, packWords(pack)[1]]; })]
  ]);
  fill(controls.by, [["", [["", "not noted"]].concat(data.people.map(pair))]]);
  one("[data-people]").hidden = !data.people.length;
  var aside = data.packs.filter(function (pack) { return pack.aside; });
  tell(one("[data-aside]"), aside.length ? "Do not charge or fly:" : "", aside.map(function (pack) { return pack.tag + ": " + pack.aside + " " + pack.why.join(" "); }));
  var dayOffered = controls.on.value = today();
  doc.addEventListener("visibilitychange", function () { // a page that lay open overnight
    if (controls.on.value === dayOffered) dayOffered = controls.on.value = today();
  });
  var can = shareable();
  if (can) one("[data-do=share]").hidden = false;
  offerToKeep();
  read();
  offerFormer();
  draw();
  show();
}));
