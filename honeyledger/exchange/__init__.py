"""Files that come in and go out: tables as spreadsheets write them, and the sample season."""
