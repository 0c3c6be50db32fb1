"""The house's colours, by the slots of an Office theme, for every writer.

Every colour that carries words keeps 4.5 : 1 on white and on the paper tint, and stays apart in grey.
"""

PALETTE = {
    "dk1": "20242B",
    "lt1": "FFFFFF",
    "dk2": "22304D",
    "lt2": "F5F2EA",
    "accent1": "34507F",
    "accent2": "7C5A12",
    "accent3": "3C6650",
    "accent4": "8F4630",
    "accent5": "565F6D",
    "accent6": "CBC4B4",
    "hlink": "1F4F8F",
    "folHlink": "5B3F7A",
}
"""Theme colours by slot: ink, white, navy, paper, blue, brass, moss, clay, slate, stone, link, visited link."""
