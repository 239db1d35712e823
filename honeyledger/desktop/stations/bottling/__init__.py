"""The bottling: jars filled from drums and tanks, change-overs, net contents, jar labels."""
