// Shows what the program sends, and asks for the pictures that changed.
(function () {
  'use strict';
  var board = {};      // entries by name, as they came
  var shown = null;    // the size looked at
  var seen = 0;        // the state of the board
  var source = null;   // what sends, while the page is looked at
  var looked = '';     // what the program was told last

  function one(selector) { return document.querySelector(selector); }
  function make(name, className, text) {
    var it = document.createElement(name);
    if (className) { it.className = className; }
    if (text !== undefined) { it.textContent = text; }
    return it;
  }
  function put(element, html) {
    if (element.lastHtml === html) { return; }
    element.lastHtml = html;
    element.innerHTML = html;  // made by the program, with every text of the pattern escaped
  }

  function name(places, words) {
    var box = one('#source');
    box.textContent = '';
    box.append(make('span', '', words ? words + ' ' : ''));
    places.forEach(function (place, i) {
      if (i > 0) { box.append(', '); }
      box.append(make('code', 'place', place));
    });
  }
  function press(button) {
    document.querySelectorAll('.spot[aria-pressed="true"]').forEach(function (other) { other.setAttribute('aria-pressed', 'false'); });
    button.setAttribute('aria-pressed', 'true');
  }

  function spotsOf(picture) {
    if (picture.spots) { return picture.spots; }
    return picture.places ? [[0, 0, 1, 1, picture.name, picture.places]] : [];
  }
  function figureFor(list, at) {
    var figure = list.children[at];
    if (!figure) {
      figure = make('figure', 'picture');
      var caption = make('figcaption');
      caption.append(make('span', 'name'), make('span', 'kind', 'changed'));
      var sheet = make('div', 'sheet');
      sheet.append(make('img'));
      figure.append(caption, sheet);
      list.append(figure);
    }
    return figure;
  }
  function show(list, pictures, word) {
    pictures.forEach(function (picture, i) {
      var figure = figureFor(list, i);
      var img = figure.querySelector('img');
      figure.querySelector('.name').textContent = word + picture.name;
      figure.classList.toggle('changed', picture.changed);
      figure.classList.toggle('late', picture.late);
      if (img.dataset.picture !== picture.picture) {
        img.dataset.picture = picture.picture;
        img.loading = picture.changed || i === 0 ? 'eager' : 'lazy';
        img.width = Math.round(picture.width * 4 / 3);
        img.height = Math.round(picture.height * 4 / 3);
        img.src = 'picture/' + picture.picture;
      }
      img.alt = picture.alt || word + picture.name;
      var spots = JSON.stringify(spotsOf(picture));
      if (figure.spots === spots) { return; }
      figure.spots = spots;
      var sheet = figure.querySelector('.sheet');
      sheet.querySelectorAll('.spot').forEach(function (old) { old.remove(); });
      spotsOf(picture).forEach(function (spot) {
        var button = make('button', 'spot');
        button.type = 'button';
        button.setAttribute('aria-label', 'Where it comes from: ' + spot[4]);
        button.setAttribute('aria-pressed', 'false');
        button.style.left = spot[0] * 100 + '%';
        button.style.top = spot[1] * 100 + '%';
        button.style.width = spot[2] * 100 + '%';
        button.style.height = spot[3] * 100 + '%';
        button.addEventListener('click', function () { press(button); name(spot[5], spot[4]); });
        sheet.append(button);
      });
    });
    while (list.children.length > pictures.length) { list.lastElementChild.remove(); }
  }

  function draw() {
    var sizes = board.sizes || {title: '', sizes: []};
    var status = board.status || {state: 'working', words: 'Building …'};
    document.title = (status.state === 'broken' ? '✗ ' : '') + (sizes.title || 'dogear');
    one('h1').textContent = sizes.title;
    one('#status').textContent = status.words;
    one('#status').className = status.state === 'broken' ? 'bad' : '';
    one('#errors').hidden = !board.errors;
    put(one('#errors'), board.errors || '');
    put(one('#messages'), board.messages || '');
    if (sizes.sizes.length > 0 && !sizes.sizes.some(function (size) { return size.id === shown; })) { shown = sizes.sizes[0].id; }
    var bar = one('#sizes');
    bar.textContent = '';
    sizes.sizes.forEach(function (size) {
      var button = make('button', '', size.title);
      button.type = 'button';
      button.dataset.size = size.id;
      button.setAttribute('aria-pressed', size.id === shown ? 'true' : 'false');
      button.addEventListener('click', function () {
        shown = size.id;
        draw();
        look();
      });
      bar.append(button);
    });
    if (shown === null) {
      var first = Object.keys(board).filter(function (key) { return key.startsWith('pages/') && board[key]; })[0];
      if (first) { show(one('#pages > div'), board[first], 'Page '); }
      return;
    }
    show(one('#pages > div'), board['pages/' + shown] || [], 'Page ');
    show(one('#figures > div'), board['figures/' + shown] || [], '');
    put(one('#quantities'), (board['facts/' + shown] || {html: ''}).html);
  }

  // The program makes first what is looked at.
  function look() {
    var pane = one('#pages'), pages = one('#pages > div').children, page = 0;
    var top = pane.getBoundingClientRect().top + 40;
    for (var i = 0; i < pages.length; i += 1) {
      if (pages[i].getBoundingClientRect().top <= top + 120) { page = i; }
    }
    var words = 'look?size=' + encodeURIComponent(shown || '') + '&page=' + page;
    if (words === looked) { return; }
    looked = words;
    fetch(words).catch(function () { return null; });
  }

  function listen() {
    if (source || document.hidden) { return; }
    source = new EventSource('events?seen=' + seen);
    source.onmessage = function (event) {
      var news = JSON.parse(event.data);
      var before = seen;
      seen = Number(event.lastEventId);
      if (before === 0) { board = {}; }
      Object.keys(news).forEach(function (key) { board[key] = news[key]; });
      draw();
      document.documentElement.dataset.state = (board.status || {}).state;
      if (before === 0) { look(); }
    };
    source.onopen = draw;
    source.onerror = function () {
      // It is asked again by and by; only an answer that refuses ends that.
      one('#status').textContent = 'dogear watch does not answer. It may have ended.';
      if (source && source.readyState === EventSource.CLOSED) { source = null; }
    };
  }
  // A browser opens few connections to one place: a page nobody looks at gives its own back.
  function hide() {
    if (source) { source.close(); }
    source = null;
  }

  document.addEventListener('DOMContentLoaded', function () {
    var waiting = 0;
    one('#pages').addEventListener('scroll', function () {
      window.clearTimeout(waiting);
      waiting = window.setTimeout(look, 150);
    });
    document.addEventListener('visibilitychange', function () { if (document.hidden) { hide(); } else { listen(); look(); } });
    listen();
  });
}());
