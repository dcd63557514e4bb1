// Which size is shown, and which steps are done; both are remembered where the browser allows it.
(function () {
  'use strict';
  var root = document.documentElement;
  root.classList.add('js');
  var prefix = 'dogear/' + root.getAttribute('data-pattern') + '/' + root.getAttribute('data-edition') + '/';

  function recall(name) {
    try { return window.localStorage.getItem(prefix + name); } catch (denied) { return null; }
  }
  function remember(name, value) {
    try {
      if (value === null) { window.localStorage.removeItem(prefix + name); }
      else { window.localStorage.setItem(prefix + name, value); }
    } catch (denied) { return; }
  }
  function all(selector, within) {
    return Array.prototype.slice.call((within || document).querySelectorAll(selector));
  }

  document.addEventListener('DOMContentLoaded', function () {
    var sizes = all('article.size');
    var links = all('.sizes a');
    var shown = null;

    function boxes() { return all('input[data-step]', shown); }
    function name(box) { return box.closest('article').getAttribute('data-size') + '/' + box.getAttribute('data-step'); }
    function mark(box) { box.closest('li').classList.toggle('ticked', box.checked); }
    function count() {
      var some = boxes();
      var done = some.filter(function (box) { return box.checked; }).length;
      all('.done').forEach(function (place) {
        place.textContent = some.length === 0 ? '' :
          place.getAttribute('data-words').replace('{n}', done).replace('{all}', some.length);
      });
    }
    function show(article) {
      shown = article;
      sizes.forEach(function (other) { other.classList.toggle('shown', other === article); });
      links.forEach(function (link) {
        if (link.getAttribute('data-size') === article.getAttribute('data-size')) { link.setAttribute('aria-current', 'true'); }
        else { link.removeAttribute('aria-current'); }
      });
      remember('chosen', article.getAttribute('data-size'));
      count();
    }
    function named(size) {
      return sizes.filter(function (article) { return article.getAttribute('data-size') === size; })[0];
    }
    // What an address after # points at, with its size shown.
    function follow() {
      var target = document.getElementById(decodeURIComponent(window.location.hash.slice(1)));
      var article = target ? target.closest('article.size') : null;
      if (article === null) { return false; }
      show(article);
      target.scrollIntoView();
      return true;
    }
    // The heading that stands at the top of the window.
    function place() {
      var above = all('[id]', shown).filter(function (head) {
        return head.matches('h2, h3') ? 120 > head.getBoundingClientRect().top : false;
      });
      return above.length === 0 ? '' : above[above.length - 1].id.replace(shown.getAttribute('data-size') + '.', '');
    }

    links.forEach(function (link) {
      link.addEventListener('click', function (event) {
        event.preventDefault();
        var before = place();
        show(named(link.getAttribute('data-size')));
        var same = before === '' ? null : document.getElementById(shown.getAttribute('data-size') + '.' + before);
        if (same) { same.scrollIntoView(); } else { window.scrollTo(0, 0); }
      });
    });
    all('input[data-step]').forEach(function (box) {
      box.checked = recall(name(box)) === 'done';
      mark(box);
      box.addEventListener('change', function () {
        remember(name(box), box.checked ? 'done' : null);
        mark(box);
        count();
      });
    });
    all('button.next').forEach(function (button) {
      button.addEventListener('click', function () {
        var next = boxes().filter(function (box) { return !box.checked; })[0];
        if (!next) { return; }
        next.closest('li').scrollIntoView();
        next.focus({ preventScroll: true });
      });
    });
    all('button.clear').forEach(function (button) {
      button.addEventListener('click', function () {
        if (!window.confirm(button.getAttribute('data-words'))) { return; }
        boxes().forEach(function (box) {
          box.checked = false;
          remember(name(box), null);
          mark(box);
        });
        count();
      });
    });
    window.addEventListener('hashchange', follow);
    if (!follow()) { show(named(recall('chosen')) || sizes[0]); }
  });
}());
