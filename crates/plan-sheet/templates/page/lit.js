// The screen that stays lit while something runs.

/** One try for each tap or return to the page: a browser that refuses is not asked ten times a second. */
export const lit = {
  lock: null,
  isBusy: false,
  mayAsk: false,
  isRefused: false,
  allow() {
    this.mayAsk = true;
  },
  get isPossible() {
    return "wakeLock" in navigator;
  },
  async keep(isActive) {
    if (this.isBusy || !this.isPossible) return;
    this.isBusy = true;
    try {
      if (isActive && this.lock === null && this.mayAsk && document.visibilityState === "visible") {
        this.mayAsk = false;
        this.lock = await navigator.wakeLock.request("screen");
        this.isRefused = false;
        this.lock.addEventListener("release", () => {
          this.lock = null;
        });
      } else if (!isActive && this.lock !== null) {
        await this.lock.release();
        this.lock = null;
      }
    } catch {
      this.lock = null;
      this.isRefused = true;
    }
    this.isBusy = false;
  },
};
