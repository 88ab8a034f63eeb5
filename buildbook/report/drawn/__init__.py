"""What drawings and charts are made from: plans, series, pictures, places of stations."""
