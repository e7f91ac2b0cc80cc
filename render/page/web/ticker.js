// A worker that says when to look ahead: a tab that is not seen slows the page's own timers to a second
// and more, and a worker's it does not.
let timer = 0;
onmessage = ({ data: interval }) => { // milliseconds; 0 is a rest
  clearInterval(timer);
  timer = interval > 0 ? setInterval(() => postMessage(0), interval) : 0;
};
