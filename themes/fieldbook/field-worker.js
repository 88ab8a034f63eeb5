/* Keeps the field form for where there is no network: these files of the folder that it stands in, and nothing else. */
(function () {
  "use strict";
  var files = ["field-form.html", "style.css", "field.css", "field.js"];
  var scope = self.registration.scope, store = "field form " + scope, patience = 3000;
  function address(file) { return new URL(file, scope).href; }
  function kept(url) {
    return caches.open(store).then(function (cache) { return cache.match(url); });
  }
  function keep(url) {
    return fetch(url, { cache: "no-cache" }).then(function (answer) {
      if (!answer.ok) throw new Error(answer.status);
      return caches.open(store).then(function (cache) { return cache.put(url, answer.clone()); }).then(function () { return answer; });
    });
  }
  self.addEventListener("install", function (event) {
    event.waitUntil(Promise.all(files.map(address).map(keep)).then(function () { return self.skipWaiting(); }));
  });
  self.addEventListener("activate", function (event) { event.waitUntil(self.clients.claim()); });
  /* The newest copy where the network answers in time, else the one that is kept. */
  self.addEventListener("fetch", function (event) {
    var url = event.request.url.split(/[?#]/)[0];
    if (event.request.method !== "GET" || files.map(address).indexOf(url) < 0) return;
    event.respondWith(kept(url).then(function (old) {
      var fresh = keep(url);
      if (!old) return fresh;
      var late = new Promise(function (resolve) { setTimeout(resolve, patience, old); });
      return Promise.race([fresh, late]).catch(function () { return old; });
    }));
  });
}());
