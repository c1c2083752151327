"""The web application of a plant, on its own machine and without the internet.

Read in this order: ``settings`` (what is switched on), ``roles`` (who may do what), ``people``, ``audit`` (the chain
every change is told to), ``today`` (the first screen), ``page`` (what all pages share), ``start`` (from a folder to a
first page), ``keep`` (backup and restore). Each folder with a page is one small Django application, complete in itself.
Nothing but this room and the commands that start it knows Django.
"""
