// The least program that shows an answer and changes it. In a file of its own, like the one that it is compared with.
function answer(litres) {
  const shown = document.getElementById("answer-dose");
  shown.value = litres;
  shown.textContent = `${litres} litres`;
}
document.addEventListener("input", ({ target }) => {
  answer({ clear: 1.5, dull: 0.5 }[target.value] ?? (Number(target.value) || 5));
});
answer(5);
