// For browsers from before modules, which run this file and not the others.
document.addEventListener("DOMContentLoaded", function () {
  document.getElementById("opening").textContent =
    "Dappledome cannot open: this browser is too old for it. Please update it or take another.";
});
