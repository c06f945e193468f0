"""What lies beside a build.yaml and is read with it: pictures, chapters, files to give along."""
