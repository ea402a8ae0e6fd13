"""What stands on the pages beside sheets and cuts: pictures, tables and words, made once for every surface."""
