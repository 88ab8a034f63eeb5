"""What is counted towards a task, and when it will be due."""
