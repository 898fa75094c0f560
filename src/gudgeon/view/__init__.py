"""The read model of a job: plain data, made by the workbench, read by faces, papers and programs."""
