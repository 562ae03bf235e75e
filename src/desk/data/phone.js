// Sends the code, and goes where it leads.
const field = document.getElementById("code");
const told = document.getElementById("told");

document.getElementById("form").addEventListener("submit", async (event) => {
  event.preventDefault();
  try {
    const response = await fetch("/code", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ code: field.value }) });
    const body = await response.json();
    // Not kept in the history: going back would ask for a code that was used.
    if (response.ok) return location.replace(body.to);
    told.textContent = body.what;
  } catch {
    told.textContent = "The desk does not answer: it was closed, or the phone is in another network.";
  }
  field.select();
  return undefined;
});
document.documentElement.classList.add("ready");
