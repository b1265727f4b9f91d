"""The second process, started by the window as `python -m grillestack.app.workers`."""

from grillestack.app.workers.serve import main

if __name__ == "__main__":
    main()
