// Stands in the page only while `draw --watch` runs: asks whether the set was drawn anew.
(() => {
  const mine = "STAMP", kept = "open " + location.pathname;
  try {
    JSON.parse(sessionStorage.getItem(kept) || "[]").forEach((id) => {
      const zoom = document.getElementById(id);
      if (zoom) zoom.open = true;
    });
  } catch { /* a browser that keeps nothing for a file on the disc */ }
  const anew = () => {
    try {
      const open = [...document.querySelectorAll("details[open]")].map((d) => d.id);
      sessionStorage.setItem(kept, JSON.stringify(open));
    } catch { /* the pictures close */ }
    location.reload();
  };
  setInterval(() => {
    const news = document.createElement("script");
    news.src = "watch.js?" + Date.now();
    news.onerror = () => news.remove();
    news.onload = () => {
      news.remove();
      if (window.drawnLast !== mine) anew();
    };
    document.body.append(news);
  }, 500);
})();
