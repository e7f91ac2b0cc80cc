// A worker that says when to look ahead: a tab that is not seen slows the page's own timers to a second
// and more, and a worker's it does not.
const interval = 25; // milliseconds

let timer = 0;
onmessage = ({ data }) => {
  clearInterval(timer);
  timer = data === "go" ? setInterval(() => postMessage(0), interval) : 0;
};
