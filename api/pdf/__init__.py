"""The report: a job and its verdict drawn on paper, in a child process with limits.

`process` starts the child, `request` is what it is told, `render` draws, `fetcher` gives WeasyPrint its few
files from memory. `readings`, `findings`, `road` turn the two documents into rows, `airline` and `charts`
into drawings, `figures` and `words` into text.
"""
