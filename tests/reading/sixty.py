"""Sixty stories for every cell of CCSSM (2010), glossary Tables 1 and 2, answers worked by hand.

A school garden and its kitchen, invented pupils; whole numbers (W), fractions (F), decimals (D).
They were written after the reading was settled, as a teacher would paste them, and none was changed
to be read.
"""

from __future__ import annotations

SIXTY: tuple[tuple[str, str, str], ...] = (
    ("add to, result W", "Seventeen ladybugs were on the bean plants. Then 8 more ladybugs landed "
     "on them. How many ladybugs are on the bean plants now?", "25"),
    ("add to, result F", "Pilar had 5/6 cup of broth in a pan. She poured in 2/3 cup more. "
     "How much broth is in the pan now?", "3/2"),
    ("add to, result D", "The rain gauge in the garden showed 2.4 centimeters of rain. During the "
     "night another 1.75 centimeters fell. How many centimeters does the gauge show now?", "4.15"),
    ("add to, change W", "There were 26 jars on the shelf. The class put some more jars on the "
     "shelf. Now there are 41 jars on it. How many jars did the class put on the shelf?", "15"),
    ("add to, change F", "A watering can held 1 1/4 liters of water. Dario added some water, and "
     "now the can holds 3 1/2 liters. How many liters of water did Dario add?", "9/4"),
    ("add to, change D", "Selin's sunflower was 0.85 meter tall on the first of May. At the end of "
     "May it was 1.3 meters tall. How much did it grow in May?", "0.45"),
    ("add to, start W", "Some chairs were in the greenhouse. Ruben carried in 14 more chairs. Then "
     "there were 33 chairs in the greenhouse. How many chairs were there at first?", "19"),
    ("add to, start F", "Ikram had some honey in a jar. She added 3/8 cup of honey, and then there "
     "was 7/8 cup in the jar. How much honey was in the jar at the beginning?", "1/2"),
    ("add to, start D", "The class had some money in the seed box. After they earned $18.50 at the "
     "stand, they had $42.25. How much money was in the seed box before?", "23.75"),
    ("take from, result W", "A tray held 60 muffins. The kitchen sold 37 of the muffins. "
     "How many muffins were left on the tray?", "23"),
    ("take from, result F", "There was 7/8 pound of butter. The bakers used 1/4 pound of it. "
     "How much butter was left?", "5/8"),
    ("take from, result D", "Jory cut 1.6 meters from a string that was 4.25 meters long. "
     "How many meters of string were left?", "2.65"),
    ("take from, change W", "Lucien had 52 bulbs. He planted some of them, and now he has 18 bulbs "
     "left. How many bulbs did Lucien plant?", "34"),
    ("take from, change F", "A sack held 5 1/2 pounds of potatoes. The cooks took some potatoes "
     "out, and 2 3/4 pounds were left in the sack. How many pounds of potatoes did the cooks take "
     "out?", "11/4"),
    ("take from, change D", "The tank was filled with 12.5 liters of water. After the beds were "
     "watered, 3.8 liters were left. How many liters of water were used?", "8.7"),
    ("take from, start W", "Amara gave 9 of her onions to Piet. Now she has 16 onions. "
     "How many onions did Amara have before?", "25"),
    ("take from, start F", "Some flour was in a bin. The class used 2/3 cup of it for bread, and "
     "1 1/6 cups of flour were left. How much flour was in the bin at first?", "11/6"),
    ("take from, start D", "Nadim spent $6.75 on garden gloves and had $8.40 left. "
     "How much money did he have to begin with?", "15.15"),
    ("put together, total W", "A basket has 14 red peppers, 9 green peppers and 6 yellow peppers. "
     "How many peppers are in the basket?", "29"),
    ("put together, total F", "Zofia mixed 1/2 cup of yogurt with 1/3 cup of milk. "
     "How many cups of the mixture did she make?", "5/6"),
    ("put together, total D", "One squash weighs 2.35 kilograms and another squash weighs 1.9 "
     "kilograms. What is the total weight of the two squashes?", "4.25"),
    ("take apart, part W", "There are 45 plants on the window sill. 28 of them are herbs, and the "
     "others are flowers. How many of the plants are flowers?", "17"),
    ("take apart, part F", "Thandi's salad is made of lettuce and carrots and weighs 3/4 pound. "
     "The lettuce weighs 1/3 pound. How much do the carrots weigh?", "5/12"),
    ("take apart, part D", "Bashir walked 3.2 kilometers to the market and back. The way to the "
     "market was 1.75 kilometers. How long was the way back?", "1.45"),
    ("compare, difference more W", "Rosalind watered 31 plants, and Hideo watered 19 plants. "
     "How many more plants did Rosalind water than Hideo?", "12"),
    ("compare, difference more F", "Carlo used 5/8 yard of ribbon and Maud used 1/2 yard of "
     "ribbon. How much more ribbon did Carlo use than Maud?", "1/8"),
    ("compare, difference more D", "The red pumpkin weighs 4.6 kilograms. The white pumpkin weighs "
     "2.85 kilograms. How much heavier is the red pumpkin than the white pumpkin?", "1.75"),
    ("compare, difference fewer W", "There are 24 spoons and 15 forks in the drawer. "
     "How many fewer forks than spoons are in the drawer?", "9"),
    ("compare, difference fewer F", "The mint is 2/3 foot tall and the basil is 3/4 foot tall. "
     "How much shorter is the mint than the basil?", "1/12"),
    ("compare, difference fewer D", "A melon costs $3.20 and a cabbage costs $1.85. "
     "How much less does the cabbage cost than the melon?", "1.35"),
    ("compare, bigger more W", "Winnie planted 18 seeds. Abel planted 7 more seeds than Winnie. "
     "How many seeds did Abel plant?", "25"),
    ("compare, bigger more F", "Ottilie drank 3/4 cup of soup. Jonas drank 1/8 cup more than "
     "Ottilie. How much soup did Jonas drink?", "7/8"),
    ("compare, bigger more D", "The bean row is 2.4 meters long. The pea row is 0.75 meter longer "
     "than the bean row. How long is the pea row?", "3.15"),
    ("compare, bigger fewer W", "Gita has 12 stickers. She has 8 fewer stickers than Marek. "
     "How many stickers does Marek have?", "20"),
    ("compare, bigger fewer F", "The lid weighs 1/4 pound. It weighs 2/3 pound less than the pot. "
     "How much does the pot weigh?", "11/12"),
    ("compare, bigger fewer D", "Levi ran 1.25 miles. That is 0.5 mile less than Sana ran. "
     "How far did Sana run?", "1.75"),
    ("compare, smaller fewer W", "The first bed has 40 strawberries. The second bed has 13 fewer "
     "strawberries than the first bed. How many strawberries does the second bed have?", "27"),
    ("compare, smaller fewer F", "Malia walked 5/6 mile. Eero walked 1/3 mile less than Malia. "
     "How far did Eero walk?", "1/2"),
    ("compare, smaller fewer D", "A loaf of rye bread weighs 1.2 kilograms. A loaf of white bread "
     "weighs 0.45 kilogram less. How much does the loaf of white bread weigh?", "0.75"),
    ("compare, smaller more W", "Fay picked 50 cherries. She picked 22 more cherries than Ned. "
     "How many cherries did Ned pick?", "28"),
    ("compare, smaller more F", "The kitchen used 7/8 pound of rice on Monday. That is 1/4 pound "
     "more than on Tuesday. How much rice did the kitchen use on Tuesday?", "5/8"),
    ("compare, smaller more D", "Umut's row is 6.5 meters long, which is 1.8 meters longer than "
     "Vera's row. How long is Vera's row?", "4.7"),
    ("equal groups, product W", "The garden club filled 9 crates. They put 12 squashes in each "
     "crate. How many squashes did the club put in crates?", "108"),
    ("equal groups, product F", "Each pupil gets 2/5 liter of juice. There are 6 pupils. "
     "How many liters of juice are needed?", "12/5"),
    ("equal groups, size W", "Rhea divides 56 radishes equally among 7 bunches. "
     "How many radishes are in each bunch?", "8"),
    ("equal groups, size D", "Five friends share the cost of a $31.50 wheelbarrow equally. "
     "How much does each friend pay?", "6.3"),
    ("equal groups, number W", "A gardener has 72 tulip bulbs. He plants 9 bulbs in each pot. "
     "How many pots does he need?", "8"),
    ("equal groups, number F", "A cook has 3 cups of oil. One batch of dressing takes 1/4 cup of "
     "oil. How many batches can the cook make?", "12"),
    ("array, product W", "The seedlings stand in 8 rows of 15. How many seedlings are there?",
     "120"),
    ("area, product F", "A herb bed is 3/4 meter wide and 2 1/2 meters long. "
     "What is its area in square meters?", "15/8"),
    ("array, size W", "96 chairs stand in 8 equal rows. How many chairs are in each row?", "12"),
    ("area, side D", "A rectangular plot has an area of 13.5 square meters. It is 4.5 meters long. "
     "How wide is it?", "3"),
    ("array, number W", "Kasimir sets out 84 cups in rows of 12. How many rows of cups are there?",
     "7"),
    ("area, side F", "The area of a board is 2/3 square foot. Its length is 5/6 foot. "
     "What is its width?", "4/5"),
    ("times as many, product W", "Ilona has 13 acorns. Rafe has 4 times as many acorns as Ilona. "
     "How many acorns does Rafe have?", "52"),
    ("times as many, product D", "A bag of soil costs $2.75. A bag of compost costs 3 times as "
     "much as a bag of soil. How much does a bag of compost cost?", "8.25"),
    ("times as many, size W", "The oak is 48 feet tall. That is 6 times as tall as the plum tree. "
     "How tall is the plum tree?", "8"),
    ("times as many, size F", "Nell used 3/4 cup of sugar, which is 3 times as much as Hugo used. "
     "How much sugar did Hugo use?", "1/4"),
    ("times as many, number W", "The big tank holds 90 liters, and the small tank holds 15 liters. "
     "How many times as much water does the big tank hold as the small tank?", "6"),
    ("times as many, number D", "A vine was 0.4 meter long in May. In July it was 2.8 meters long. "
     "How many times as long was the vine in July as in May?", "7"),
)  # fmt: skip
